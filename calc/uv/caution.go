package uv

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
)

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
