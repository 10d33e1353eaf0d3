package wire

import (
	"fmt"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/drawdown"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// readingOff is how well a level is read where nobody says so: an assumption.
const readingOff = unit.Length(0.001)

// LevelDrops reads what was measured of a falling level, with the evaporation meanwhile. Problems are an input.Errors with fields
// from the request on.
func LevelDrops(t *working.Trail, req *pb.ExplainLevelDropsRequest, w Weather, surface unit.Area) (Asked[drawdown.Input], error) {
	asked := Asked[drawdown.Input]{Findings: w.Findings, Input: drawdown.Input{Surface: surface, WetStone: unit.SquareMetres(req.GetWetStoneM2())}}
	var errs input.Errors
	assumedReading := false
	for i, m := range req.GetDrops() {
		path := fmt.Sprintf("drops[%d]", i)
		d := drawdown.Drop{
			Time: unit.Hours(m.GetHours()), Fall: unit.Millimetres(m.GetDropMm()), Reading: readingOff, Rain: unit.Millimetres(m.GetRainMm()),
			Filled: unit.Litres(m.GetFilledL()), FallsOn: m.GetFallsOn(),
		}
		if m.ReadingUncertaintyMm != nil {
			d.Reading = unit.Millimetres(m.GetReadingUncertaintyMm())
		} else {
			assumedReading = true
		}
		date, err := Date(path+".from_day", m.GetFromDay())
		if err != nil {
			errs.AddUnder("", err)
			continue
		}
		sky, how, err := meanwhile(t, m, w, DayOfYear(date)-1, path)
		errs.AddUnder(path+".weather", err)
		d.How, d.Penman, d.Shallow = how, sky.penman, sky.shallow
		if m.BucketDropMm != nil {
			d.How, d.Bucket = drawdown.ByBucket, unit.Millimetres(m.GetBucketDropMm())
		}
		asked.Input.Drops = append(asked.Input.Drops, d)
	}
	if assumedReading {
		asked.note(assume.Note("level", "How far a reading of the level may be off", readingOff.Millimetres(), "mm", "read a ruler that stands in the pond, or a nail and a depth gauge"))
	}
	return asked, errs.Err()
}

type drying struct{ penman, shallow unit.Velocity }

// meanwhile is the evaporation between two readings: by the weather there was, or as the climate has it on those days.
func meanwhile(t *working.Trail, m *pb.LevelDrop, w Weather, from int, path string) (drying, drawdown.How, error) {
	t.About(path)
	defer t.About("")
	if m.GetWeather() != nil {
		day := Day(t, m.GetWeather())
		day.Date = from + 1
		if err := day.Check(); err != nil {
			return drying{}, 0, err
		}
		sky := w.Site.Under(t, day)
		return drying{sky.Penman, sky.Shallow}, drawdown.ByWeather, nil
	}
	count := max(1, int(m.GetHours()/24+0.5))
	var sum drying
	for i := range count {
		record := t
		if i > 0 {
			record = nil // the first day stands for the others in the workings
		}
		sky := w.Site.Under(record, w.Days[(from-DayOfYear(w.First)+1+i+2*climate.YearDays)%len(w.Days)])
		sum.penman += sky.Penman / unit.Velocity(count)
		sum.shallow += sky.Shallow / unit.Velocity(count)
	}
	return sum, drawdown.ByClimate, nil
}

var levelVerdicts = map[drawdown.Verdict]pb.LevelVerdict{
	drawdown.SunAlone:          pb.LevelVerdict_LEVEL_VERDICT_SUN_ALONE,
	drawdown.PondLeaks:         pb.LevelVerdict_LEVEL_VERDICT_POND_LEAKS,
	drawdown.StreamLoses:       pb.LevelVerdict_LEVEL_VERDICT_STREAM_LOSES,
	drawdown.PondAndStreamLose: pb.LevelVerdict_LEVEL_VERDICT_POND_AND_STREAM_LOSE,
	drawdown.CannotTell:        pb.LevelVerdict_LEVEL_VERDICT_CANNOT_TELL,
	drawdown.DoesNotAddUp:      pb.LevelVerdict_LEVEL_VERDICT_DOES_NOT_ADD_UP,
}

// ExplainedDrops turns what is left of a falling level into a message without findings.
func ExplainedDrops(a drawdown.Answer) *pb.ExplainLevelDropsResponse {
	made := &pb.ExplainLevelDropsResponse{
		Verdict: levelVerdicts[a.Verdict], Summary: a.Summary, LeakLPerDay: perDay(a.Leak), StreamLPerDay: perDay(a.Stream), TogetherLPerDay: perDay(a.Together),
		SmallestShownLPerDay: a.Smallest.LitresPerDay(),
	}
	for _, d := range a.Drops {
		rest := (d.Drop.Fall + d.Gained - d.Evaporated).Millimetres()
		width := (d.Rest.High - d.Rest.Expected).CubicMetresPerSecond() * d.Drop.Time.Seconds() / a.Surface.SquareMetres() * 1000
		made.Drops = append(made.Drops, &pb.ExplainedDrop{
			DropMm: d.Drop.Fall.Millimetres(), GainedMm: d.Gained.Millimetres(), EvaporationMmPerDay: d.Rate.MillimetresPerDay(), How: d.Drop.How.String(),
			EvaporationMm: &pb.Band{Low: (d.Evaporated - 2*d.Width).Millimetres(), Expected: d.Evaporated.Millimetres(), High: (d.Evaporated + 2*d.Width).Millimetres()},
			RestMm:        &pb.Band{Low: rest - width, Expected: rest, High: rest + width}, RestLPerDay: perDay(&d.Rest),
		})
	}
	return made
}

func perDay(b *drawdown.Band) *pb.Band {
	if b == nil {
		return nil
	}
	return &pb.Band{Low: b.Low.LitresPerDay(), Expected: b.Expected.LitresPerDay(), High: b.High.LitresPerDay()}
}
