package fill

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// How far off things are where nobody knows better: common practice, no source.
const (
	MeterOff   = unit.Ratio(0.05)
	FlowOff    = unit.Ratio(0.10)
	DrawnOff   = unit.Ratio(0.10) // a pond taped by one person
	ScaleOff   = unit.Ratio(0.01)
	ReadingOff = unit.Concentration(0.05) // kg/m³, which is g/L
)

// Drawn is the estimate that a drawing makes.
func Drawn(v unit.Volume, off unit.Ratio) Estimate { return within(v, off, "by the drawing") }

// An Estimate is a volume with its width and how it was found.
type Estimate struct {
	Low, Expected, High unit.Volume
	How                 string
	Findings            []finding.Finding
}

// within makes an estimate that may be off by a share of itself.
func within(v unit.Volume, off unit.Ratio, how string) Estimate {
	return Estimate{Low: v * unit.Volume(1-off), Expected: v, High: v * unit.Volume(1+off), How: how}
}

// ByMeter reads the volume off a water meter, which may be off by the given share; 5 % is common practice for a house
// meter. It holds only if nothing else drew on the meter. The error is an input.Errors.
func ByMeter(t *working.Trail, before, after unit.Volume, off unit.Ratio) (Estimate, error) {
	var errs input.Errors
	share(&errs, "uncertainty", off)
	between(&errs, "before_m3", before.CubicMetres(), 0, 1e9)
	between(&errs, "after_m3", after.CubicMetres(), 0, 1e9)
	if len(errs) == 0 && after <= before {
		errs.Add("after_m3", "read the meter again, and mind a meter that has gone past its last figure",
			"the reading after filling, %g m³, is not above the one before, %g m³", after.CubicMetres(), before.CubicMetres())
	}
	if len(errs) > 0 {
		return Estimate{}, errs
	}
	return within(MeterVolume.Run(t, MeterInput{Before: before, After: after}), off, "by the water meter"), nil
}

// ByTime multiplies a flow, timed with a bucket, by the time it took to fill the pond. The share says how far the flow may
// be off; mains pressure alone can move it by 10 % in a day (common practice). The error is an input.Errors.
func ByTime(t *working.Trail, flow unit.Flow, took unit.Time, off unit.Ratio) (Estimate, error) {
	var errs input.Errors
	share(&errs, "uncertainty", off)
	between(&errs, "flow_m3_per_s", flow.CubicMetresPerSecond(), 1e-7, 10)
	between(&errs, "time_s", took.Seconds(), 1, 1e8)
	if len(errs) > 0 {
		return Estimate{}, errs
	}
	return within(FilledVolume.Run(t, FilledInput{Flow: flow, Time: took}), off, "by flow and filling time"), nil
}

// A Salting is salt added to a pond and what came of it.
type Salting struct {
	Mass          unit.Mass
	Purity        unit.Ratio // 1 for pure dry salt
	Before, After unit.Concentration
	MassOff       unit.Ratio         // how far the scale may be off
	ReadingOff    unit.Concentration // how far each reading may be off
}

// BySalt finds the volume from the rise in salt. The error is an input.Errors.
func BySalt(t *working.Trail, s Salting) (Estimate, error) {
	var errs input.Errors
	between(&errs, "mass_kg", s.Mass.Kilograms(), 1e-3, 1e5)
	between(&errs, "purity", s.Purity.Float(), 0.5, 1)
	between(&errs, "before_g_per_l", s.Before.KilogramsPerCubicMetre(), 0, 50)
	between(&errs, "after_g_per_l", s.After.KilogramsPerCubicMetre(), 0, 50)
	between(&errs, "reading_uncertainty_g_per_l", s.ReadingOff.KilogramsPerCubicMetre(), 0, 50)
	share(&errs, "mass_uncertainty", s.MassOff)
	if len(errs) > 0 {
		return Estimate{}, errs
	}
	if s.After-s.Before <= 2*s.ReadingOff || s.After <= s.Before {
		errs.Add("after_g_per_l", "let the salt spread, add more of it, or use a finer meter",
			"the rise of %.3g g/L does not stand out from the meter's own ±%.3g g/L",
			(s.After - s.Before).KilogramsPerCubicMetre(), s.ReadingOff.KilogramsPerCubicMetre())
		return Estimate{}, errs
	}
	v := SaltVolume.Run(t, SaltInput{Mass: s.Mass, Purity: s.Purity, Before: s.Before, After: s.After})
	off := SaltUncertainty.Run(t, UncertaintyInput{Mass: s.MassOff, Reading: s.ReadingOff, Before: s.Before, After: s.After})
	e := within(v, min(1, off), "by salt added")
	e.Findings = []finding.Finding{saltCaution}
	return e, nil
}

// saltCaution goes with every volume by salt.
var saltCaution = finding.Finding{
	Code: "SALT_IN_A_POND", Severity: finding.Caution, Subject: "salt",
	Sentence: "Salt harms many water plants, stays until the water is changed, and must not be spread where fish are under other treatment.",
	Change:   "Use pure salt without additives, dissolve it first, and ask before you add any to a stocked pond.",
	Source:   source.Practice,
}

func share(errs *input.Errors, field string, r unit.Ratio) {
	if v := r.Float(); !(v >= 0 && v <= 0.5) {
		errs.Add(field, "give a share between 0 and 0.5", "it cannot be off by %g", v)
	}
}

func between(errs *input.Errors, field string, v, low, high float64) {
	if !(v >= low && v <= high) {
		errs.Add(field, "look for a wrong unit", "it must lie between %g and %g, not %g", low, high, v)
	}
}
