package electric

import (
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
)

// A Region is where a wiring code holds.
type Region int

// The regions whose codes are named.
const (
	Anywhere Region = iota
	UK
	Europe
	America
	Australia
)

// Cautions are those of any mains near a pond, with the codes of the region, or of all of them.
func Cautions(r Region) []finding.Finding {
	found := []finding.Finding{
		{
			Code: "MAINS_NEAR_WATER", Severity: finding.Caution, Subject: "electrics",
			Sentence: "Mains near water can kill. Every supply needs a residual-current device of 30 mA that is tested, and everything in the water is unplugged before hands go in; a person in the water means all of it is isolated.",
			Change:   "leave the installation to a licensed electrician and follow the code that holds where the pond is", Source: source.WiringRules,
		},
		{
			Code: "LOAD_LIST_ONLY", Severity: finding.Caution, Subject: "electrics",
			Sentence: "This is a load list for a licensed electrician and no design: protection against overload and shock, routes and zones are theirs to decide.",
			Change:   "hand it over before the trench is dug", Source: source.Practice,
		},
		{
			Code: "SEPARATE_DEVICES", Severity: finding.Note, Subject: "electrics",
			Sentence: "What keeps the fish alive goes on a residual-current device of its own, so that one wet joint of a lamp or a light does not stop the air.",
			Change:   "ask for separate circuits", Source: source.Practice,
		},
		{
			Code: "NO_EXTENSION_LEADS", Severity: finding.Caution, Subject: "electrics",
			Sentence: "No extension lead and no cut-off plug at a pond: joints get wet, and a long thin lead loses voltage. A device that trips is doing its work.",
			Change:   "find the item at fault one by one, and never bypass the device", Source: source.Practice,
		},
	}
	for _, c := range codes() {
		if r == Anywhere || slices.Contains(c.regions, r) {
			found = append(found, finding.Finding{
				Code: "WIRING_CODE", Severity: finding.Note, Subject: "electrics", Sentence: c.sentence,
				Change: "the edition and the local rules in force decide", Source: c.source,
			})
		}
	}
	return found
}

type code struct {
	regions  []Region
	sentence string
	source   source.Source
}

func codes() []code {
	return []code{
		{[]Region{UK}, "In the United Kingdom the wiring rules are BS 7671; additional protection by 30 mA is in regulation 411.3.3, and section 702 treats pools and fountains.", source.WiringUK},
		{[]Region{Europe}, "In Europe pools and fountains are treated in part 7-702 of IEC 60364 and its national forms.", source.WiringEurope},
		{[]Region{America}, "In North America ponds and fountains are treated in NEC articles 680 and 682 and CSA C22.1 section 68, by the edition the place has adopted.", source.WiringAmerica},
		{[]Region{Australia}, "In Australia and New Zealand damp situations are treated in section 6 of AS/NZS 3000.", source.WiringAustralia},
	}
}
