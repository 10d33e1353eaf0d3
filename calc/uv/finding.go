package uv

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/uv/lamp"
)

const subject = "lamp unit"

// assumptions says what FieldAt took for granted.
func assumptions(u Unit, c Condition) []finding.Finding {
	fs := sharesAssumed(u, c)
	fs = append(fs, finding.Finding{
		Code: "STRAIGHT_RAYS", Severity: finding.Note, Subject: subject, Source: source.Bolton2000,
		Sentence: "Refraction and reflection are left out: that alone is reported to change the average light by 6.5 % in dark water and up to 25 % in clear water.",
		Change:   "Only a bioassay of the unit itself proves its dose.",
	})
	if u.Output254 == 0 {
		fs = append(fs, outputAssumed(u))
	} else if f, ok := outputHigh(u); ok {
		fs = append(fs, f)
	}
	if u.Kind == LowPressure {
		fs = append(fs, finding.Finding{
			Code: "COLD_WATER_NOT_COUNTED", Severity: finding.Note, Subject: subject, Source: source.ColdLamp,
			Sentence: "Cold water lowers the output of a plain low-pressure lamp, by up to half near 5 °C; no published curve is at hand and nothing is taken off.",
			Change:   "Count on less in spring and autumn.",
		})
	}
	return append(fs, geometryFindings(u)...)
}

// sharesAssumed says which losses on the way into the water nobody measured.
func sharesAssumed(u Unit, c Condition) (fs []finding.Finding) {
	if c.Sleeve == 0 {
		fs = append(fs, note("SLEEVE_ASSUMED", lamp.CleanSleeve, source.QuartzSleeve,
			"A clean quartz sleeve is taken to pass %.0f %% of the light.", "Ask for the transmittance of the sleeve at 254 nm."))
	}
	if c.Film == 0 {
		fs = append(fs, note("FOULING_ASSUMED", lamp.Fouling, source.NWRI2012,
			"The film on the sleeve between cleanings is taken to pass %.0f %% of the light.", "Clean the sleeve often."))
	}
	if c.Age > 0 && c.EndOfLife == 0 {
		fs = append(fs, ageingAssumed())
	}
	if u.Output254 == 0 && u.BallastLoss == 0 {
		fs = append(fs, note("BALLAST_ASSUMED", lamp.BallastLoss, source.LampEfficiency,
			"An electronic ballast is taken to keep %.0f %% of the power; a magnetic one keeps 15 to 30 %%, most with small lamps.", "Ask for the kind of ballast."))
	}
	return fs
}

func ageingAssumed() finding.Finding {
	return note("AGEING_ASSUMED", lamp.EndOfLifeShare, source.UFGS11376,
		"The lamp's output is taken to fall in a straight line to %.0f %% at the end of its rated life.", "Ask for the tested output at the end of life.")
}

func note(code string, share float64, s source.Source, sentence, change string) finding.Finding {
	return finding.Finding{
		Code: code, Severity: finding.Note, Subject: subject, Value: finding.Of(share, "1"), Source: s,
		Sentence: fmt.Sprintf(sentence, 100*share), Change: change,
	}
}

func outputAssumed(u Unit) finding.Finding {
	out := newOutput(nil, u).Watts() / float64(u.Lamps)
	return finding.Finding{
		Code: "LAMP_OUTPUT_ASSUMED", Severity: finding.Note, Subject: subject, Value: finding.Of(out, "W"),
		Source:   source.LampEfficiency,
		Sentence: fmt.Sprintf("The output at 254 nm is not stated; %s W is taken for each new lamp, a usual share of its power.", finding.Figures(out)),
		Change:   "Ask for the output at 254 nm of a new lamp.",
	}
}

// outputHigh doubts an output that no low-pressure lamp reaches.
func outputHigh(u Unit) (finding.Finding, bool) {
	const most = 0.40 // of electrical power
	share := float64(u.Lamps) * u.Output254.Watts() / u.WallPower.Watts()
	return finding.Finding{
		Code: "LAMP_OUTPUT_DOUBTFUL", Severity: finding.Caution, Subject: subject,
		Value: finding.Of(share, "1"), Limit: finding.Of(most, "1"), Source: source.UVDGMLamps,
		Sentence: fmt.Sprintf("The stated light of 254 nm is %.0f %% of the electrical power; low-pressure lamps give 30 to 40 %%.", 100*share),
		Change:   "Check whether the figure counts other wavelengths, or the power leaves out the ballast.",
	}, share > most
}

func geometryFindings(u Unit) (fs []finding.Finding) {
	arc, length := u.ArcLength.Millimetres(), u.ChamberLength.Millimetres()
	if arc > length {
		fs = append(fs, finding.Finding{
			Code: "ARC_LONGER_THAN_CHAMBER", Severity: finding.Caution, Subject: subject, Source: source.Definition,
			Value: finding.Of(arc, "mm"), Limit: finding.Of(length, "mm"),
			Sentence: fmt.Sprintf("The arc of %.0f mm stands out of the chamber of %.0f mm; light made outside is lost.", arc, length),
			Change:   "Check arc and chamber length: the arc is shorter than the lamp.",
		})
	}
	if arc < length/2 {
		fs = append(fs, finding.Finding{
			Code: "ARC_SHORT_FOR_CHAMBER", Severity: finding.Caution, Subject: subject, Source: source.Choice,
			Value: finding.Of(arc, "mm"), Limit: finding.Of(length/2, "mm"),
			Sentence: fmt.Sprintf("The arc of %.0f mm lights less than half the chamber of %.0f mm; the careful average counts the rest as dark.", arc, length),
			Change:   "Check arc and chamber length.",
		})
	}
	return fs
}

// lampsOnAxis says that several lamps were taken as one, and what that is worth where they fit side by side.
func (f Field) lampsOnAxis() finding.Finding {
	found := finding.Finding{
		Code: "LAMPS_ON_ONE_AXIS", Severity: finding.Note, Subject: subject, Source: source.Choice,
		Sentence: fmt.Sprintf("The light of %d lamps is summed on the axis of the chamber, in one sleeve.", f.lamps),
		Change:   "Give the dose of the unit by test, or take a margin.",
	}
	apart, err := f.LampsApart(nil, f.Chamber.ChamberRadius/2)
	if err != nil { // they do not fit there
		return found
	}
	found.Value = finding.Of(apart.OfOnAxis.Float(), "1")
	found.Sentence += fmt.Sprintf(" Halfway to the wall, each in its own sleeve, they would give %.0f %% of this dose.", apart.OfOnAxis.Percent())
	return found
}
