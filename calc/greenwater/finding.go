package greenwater

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

const subject = "green water"

func (f Forecast) findings(in ForecastInput) []finding.Finding {
	fs := []finding.Finding{f.verdictFinding(), OnePass(in.MeanDose), {
		Code: "ALGAE_GROWTH_ASSUMED", Severity: finding.Note, Subject: subject, Source: source.PondGrowth,
		Value: finding.Of(f.Expected.Growth.PerDay(), "1/d"),
		Sentence: fmt.Sprintf("Growth of algae is taken as %.2g to %.2g a day at %.3g °C, part of the fastest seen in cultures.",
			f.Hopeful.Growth.PerDay(), f.Careful.Growth.PerDay(), in.Temperature.Celsius()),
		Change: "Shade, plants and fewer fish lower it.",
	}}
	return append(fs, Limits()...)
}

// OnePass says that one pass kills no green algae.
func OnePass(mean unit.Fluence) finding.Finding {
	dose := mean.MillijoulesPerSquareCentimetre()
	return finding.Finding{
		Code: "NO_KILL_IN_ONE_PASS", Severity: finding.Note, Subject: subject, Source: source.Tao2010,
		Value: finding.Of(dose, "mJ/cm²"), Limit: finding.Of(200, "mJ/cm²"),
		Sentence: fmt.Sprintf("One pass gives %s mJ/cm²; three kinds of green cells showed no suppression at 20 to 200.", finding.Figures(dose)),
		Change:   "Let many passes and the filter do the work; a slower pass is no cure by itself.",
	}
}

func (f Forecast) verdictFinding() finding.Finding {
	v := finding.Finding{
		Subject: subject, Source: f.Stop.Source,
		Value: finding.Of(f.Daily.MillijoulesPerSquareCentimetre(), "mJ/cm²"),
		Limit: finding.Of(f.Stop.Low.MillijoulesPerSquareCentimetre(), "mJ/cm²"),
		Sentence: fmt.Sprintf("The pond gathers %s mJ/cm² a day, %s times the dose that stopped a blue-green alga for a week; by turnover %s.",
			finding.Figures(f.Daily.MillijoulesPerSquareCentimetre()), finding.Figures(f.OverStop.Float()), f.turnover()),
	}
	switch f.Verdict {
	case Likely:
		v.Code, v.Severity = "GREEN_WATER_LIKELY_CLEARS", finding.Note
		v.Change = "Clean the filter often while it clears: it has to catch what the lamp clumps."
	case Possible:
		v.Code, v.Severity = "GREEN_WATER_MAY_CLEAR", finding.Caution
		v.Change = "Take more light for the volume, longer hours or shade to be surer."
	default:
		v.Code, v.Severity = "GREEN_WATER_UNLIKELY_TO_CLEAR", finding.Caution
		v.Change = "Take more light for the volume; check hours, age of the lamp, sleeve and clarity of the water."
	}
	return v
}

// turnover says in words what the road of turnover gives. Whatever the careful reading clears, the hopeful one does.
func (f Forecast) turnover() string {
	soonest, latest := f.Hopeful.Clearing, f.Careful.Clearing
	switch {
	case latest.Clears:
		if latest.Time < unit.Days(1) {
			return "it clears within a day"
		}
		return fmt.Sprintf("it clears in %s to %s days", wholeDays(soonest.Time), wholeDays(latest.Time))
	case soonest.Clears:
		return fmt.Sprintf("it clears in %s days read hopefully and not at all read carefully", wholeDays(soonest.Time))
	default:
		return "algae outgrow it even read hopefully"
	}
}

// wholeDays is a time in days, rounded up: nobody sees a tenth of a day of clearing.
func wholeDays(t unit.Time) string { return finding.Whole(math.Ceil(t.Days())) }

// Limits are what no lamp does.
func Limits() []finding.Finding {
	return []finding.Finding{{
		Code: "LAMP_ONLY_FOR_SUSPENDED_ALGAE", Severity: finding.Note, Subject: subject, Source: source.Practice,
		Sentence: "A lamp does nothing against blanketweed and other algae that never pass it, nor against ammonia or debris.",
		Change:   "Lift weed out by hand, and leave waste to the filter.",
	}, {
		Code: "OXYGEN_AS_ALGAE_DIE", Severity: finding.Caution, Subject: subject, Source: source.Practice,
		Sentence: "Algae that die at once use up oxygen, worst at night and in warm water.",
		Change:   "Run air or the fall while the water clears.",
	}}
}

func (in ForecastInput) check() (errs input.Errors) {
	between := func(field string, v, low, high float64, symbol string) {
		if !(v > low && v <= high) {
			errs.Add(field, "check value and unit", "%g %s is not above %g and up to %g %s", v, symbol, low, high, symbol)
		}
	}
	between("mean_dose_mj_per_cm2", in.MeanDose.MillijoulesPerSquareCentimetre(), 0, 1e12, "mJ/cm²") // the strongest lamp and the least flow that are asked of
	between("peak_velocity", in.PeakVelocity.Float(), 1, 2.001, "times the mean")
	between("flow_l_per_h", in.Flow.LitresPerHour(), 0, 1e6, "L/h")
	between("hours_per_day", in.HoursPerDay.Hours(), 0, 24, "h")
	between("pond_volume_l", in.Volume.Litres(), 0, 1e9, "L")
	between("ratio", in.Ratio.Float(), 1, 1e6, "times what is wanted")
	if T := in.Temperature.Celsius(); !(T >= 2 && T <= 40) {
		errs.Add("temperature_c", "give the temperature of the water in the growing season",
			"%g °C is not between 2 and 40, where growth was measured", T)
	}
	return errs
}
