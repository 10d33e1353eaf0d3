package uv

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/exposure"
	"example.com/pondwright/calc/working"
)

// BareLamp is the unit's light outside its chamber, and how soon it reaches the limit for eyes and skin.
type BareLamp struct {
	Distance    unit.Length
	Irradiance  unit.FluenceRate
	TimeToLimit unit.Time
}

// Bare works out the unit's new lamps in air, a metre off or twice the arc, where the formula begins to hold.
func Bare(t *working.Trail, u Unit) BareLamp {
	b := BareLamp{Distance: max(1, 2*u.ArcLength)}
	b.Irradiance = exposure.Irradiance.Run(t, exposure.BareLampInput{
		Output: newOutput(t, u), ArcLength: u.ArcLength, Distance: b.Distance,
	})
	limit, _ := exposure.Limit()
	b.TimeToLimit = exposure.TimeToLimit.Run(t, exposure.TimeInput{Irradiance: b.Irradiance, Limit: limit})
	return b
}

// CautionsFor are the Cautions with the time that the unit's own lamps leave.
func CautionsFor(t *working.Trail, u Unit) []finding.Finding {
	fs, bare := Cautions(), Bare(t, u)
	fs[0].Value = finding.Of(bare.TimeToLimit.Seconds(), "s")
	seconds := finding.Figures(bare.TimeToLimit.Seconds())
	if bare.TimeToLimit >= unit.Seconds(10) {
		seconds = finding.Whole(bare.TimeToLimit.Seconds())
	}
	fs[0].Sentence = fmt.Sprintf("Light of 254 nm burns eyes and skin before it is felt: %.3g m from these lamps bare, the limit of 60 J/m² in 8 hours is reached in %s s.",
		bare.Distance.Metres(), seconds)
	return fs
}

// Cautions are what to say with every lamp unit. Local codes and licensed practice come before all of them.
func Cautions() []finding.Finding {
	caution := func(code, sentence, change string, s source.Source) finding.Finding {
		return finding.Finding{
			Code: code, Severity: finding.Caution, Subject: subject, Sentence: sentence, Change: change, Source: s,
		}
	}
	eyes := caution("UV_C_EYES_AND_SKIN",
		"Light of 254 nm burns eyes and skin before it is felt: the limit of 60 J/m² in 8 hours is reached within about a minute a metre from a bare lamp of ordinary size.",
		"Never look at a lit lamp and never run it outside its chamber; unplug before opening, and leave interlocks in place.",
		source.CIE187)
	eyes.Limit = finding.Of(60, "J/m²")
	return []finding.Finding{
		eyes,
		caution("MAINS_NEAR_WATER",
			"Mains near water can kill.",
			"Supply it through a 30 mA residual-current device, unplug before hands go in the water, and leave fixed wiring to a licensed electrician under the local code.",
			source.IEC6033555),
		caution("MERCURY",
			"The lamp holds mercury.",
			"Hand old lamps in as electrical waste. If one breaks: air the room, use no vacuum cleaner, seal the pieces in a container.",
			source.Minamata),
		caution("QUARTZ_AND_DRY_RUNNING",
			"Quartz sleeves break and cut, and a lamp that runs dry overheats its housing.",
			"Wear gloves, drain the unit before frost, and switch it off with the pump.",
			source.Practice),
	}
}
