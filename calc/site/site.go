// Package site holds the cautions of digging, children, water and law that a job has, by what there is on it.
package site

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Job is what the cautions hang on.
type Job struct {
	Volume    unit.Volume
	Depth     unit.Length
	Raised    unit.Length // how far the shell stands above the ground
	Children  *bool
	Mortar    bool
	Flush     bool
	Chlorine  bool
	Carted    bool
	Fish      bool
	GateWidth unit.Length // 0 where not known
	Machine   unit.Length // how wide the digger is; 0 for none
}

// Heights and volumes from which somebody else is asked.
const (
	engineered = unit.Length(1)     // of retained water or soil: common practice
	reservoir  = unit.Volume(10000) // m³ above natural ground
)

// Cautions lists them, gravest first.
func Cautions(j Job) []finding.Finding {
	found := []finding.Finding{children(j), services()}
	if j.Raised >= engineered {
		found = append(found, finding.Finding{
			Code: "RETAINED_WATER", Severity: finding.Stop, Subject: "structure",
			Sentence: fmt.Sprintf("Walls or banks that hold %.2f m of water above the ground can fail all at once. Nothing of them is calculated here.", j.Raised.Metres()),
			Value:    finding.Of(j.Raised.Metres(), "m"), Limit: finding.Of(engineered.Metres(), "m"), Change: "have an engineer design them", Source: source.Practice,
		})
	} else if j.Raised > 0 {
		found = append(found, finding.Finding{
			Code: "RAISED_WATER", Severity: finding.Caution, Subject: "structure",
			Sentence: fmt.Sprintf("%.2f m of water stand above the ground: it presses on the walls with %.1f kPa at their foot, and a raised pond freezes from its sides.", j.Raised.Metres(), 9.81*j.Raised.Metres()),
			Value:    finding.Of(j.Raised.Metres(), "m"), Change: "build the walls as their maker or an engineer says", Source: source.Practice,
		})
	}
	if j.Machine > 0 && j.GateWidth > 0 && j.Machine >= j.GateWidth {
		found = append(found, finding.Finding{
			Code: "GATE_TOO_NARROW", Severity: finding.Stop, Subject: "access",
			Sentence: fmt.Sprintf("The digger is some %.2f m wide and the way in %.2f m.", j.Machine.Metres(), j.GateWidth.Metres()),
			Value:    finding.Of(j.GateWidth.Metres(), "m"), Limit: finding.Of(j.Machine.Metres(), "m"), Change: "dig by hand, take a smaller machine, or find another way in", Source: source.Practice,
		})
	}
	if j.Mortar {
		found = append(found, mortar())
	}
	found = append(found, waters(j)...)
	if j.Volume >= reservoir {
		found = append(found, finding.Finding{
			Code: "RESERVOIR_LAW", Severity: finding.Caution, Subject: "law",
			Sentence: "Water of this volume above natural ground may be a reservoir in law.", Value: finding.Of(j.Volume.CubicMetres(), "m³"), Limit: finding.Of(reservoir.CubicMetres(), "m³"),
			Change: "ask the authority before anything is drawn", Source: source.Reservoirs,
		})
	}
	return append(found, finding.Finding{
		Code: "MEASURE_BEFORE_DIGGING", Severity: finding.Note, Subject: "plan",
		Sentence: "An estimate from what was given. Rules differ by country, state and water company, and those named here may be out of date. No design of dams, retaining walls, roofs or swimming.",
		Change:   "measure on site before buying or digging", Source: source.Practice,
	})
}

func children(j Job) finding.Finding {
	f := finding.Finding{
		Code: "WATER_DROWNS", Severity: finding.Caution, Subject: "children",
		Sentence: "Any depth of water can drown a child, and there is no safe one. A net is no cover for children.",
		Change:   "supervise; a rigid grid that carries a child, or a fence of at least 1.1 m with a gate that locks, as local rules ask", Source: source.PondDrowning,
	}
	if j.Children != nil && *j.Children {
		f.Severity = finding.Stop
		f.Sentence = "Children live or come here. " + f.Sentence + " Settle grid or fence before the hole is filled."
	}
	return f
}

func services() finding.Finding {
	return finding.Finding{
		Code: "BURIED_SERVICES", Severity: finding.Caution, Subject: "dig",
		Sentence: "Cables, gas and drains lie where no plan shows them. Pump chambers and deep sumps can hold bad air.",
		Change:   "ask the utilities first (in the US call 811), scan, dig trial holes by hand, and let nobody into a deep pit alone", Source: source.ConfinedSpaces,
	}
}

func mortar() finding.Finding {
	return finding.Finding{
		Code: "FRESH_MORTAR", Severity: finding.Caution, Subject: "mortar",
		Sentence: "Wet mortar burns skin and eyes, and fresh cement drives the pH up. How long it matters is disputed: some wait four weeks, some say it is overstated; it is worse in a small pond with soft water.",
		Change:   "gloves and goggles; no fish until the pH stays below 8.5 for a week", Source: source.Practice,
	}
}

func waters(j Job) []finding.Finding {
	var found []finding.Finding
	if j.Flush {
		found = append(found, finding.Finding{
			Code: "FLUSH_WATER", Severity: finding.Caution, Subject: "flush water",
			Sentence: "Flush water holds dirt, nutrients, and whatever was dosed. Discharge to a stream, the ground or a sewer can need a permit or leave.",
			Change:   "let it run on a border or a lawn; never into a stream or a surface-water drain; ask before it goes into a sewer", Source: source.DischargeRules,
		})
	}
	if j.Chlorine {
		found = append(found, finding.Finding{
			Code: "BACKFLOW", Severity: finding.Caution, Subject: "tap water",
			Sentence: "Pond water that is drawn back into the mains is a danger to health, and a hose left in the pond does it.",
			Change:   "hang its end in the air, with a check valve at the tap, as the water supplier asks", Source: source.FillRules,
		})
	}
	if j.Carted {
		found = append(found, finding.Finding{
			Code: "SPOIL_IS_WASTE", Severity: finding.Note, Subject: "spoil",
			Sentence: "Spoil that leaves the garden is waste: whoever carries it may need a registration and a note for each load.",
			Change:   "keep the notes; look for invasive plants in it first", Source: source.Practice,
		})
	}
	if j.Fish {
		found = append(found, finding.Finding{
			Code: "NEVER_RELEASE", Severity: finding.Caution, Subject: "fish",
			Sentence: "Fish, plants and snails of a pond never go into the wild, and some plants may not be sold or kept.",
			Change:   "look at the local list before planting", Source: source.Practice,
		})
	}
	return found
}
