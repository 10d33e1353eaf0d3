package stock

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// TypicalProtein is the share of protein taken where the feed's label was not read: the middle of the 30 to 38 % that
// carp need.
const TypicalProtein = unit.Ratio(0.35)

// WasteInput is feed and what it is made of.
type WasteInput struct {
	Feed    unit.MassRate `sym:"M"`
	Protein unit.Ratio    `sym:"PC"`
}

// A Waste is what feed turns into once it is eaten.
type Waste struct {
	TAN           unit.MassRate `sym:"P_TAN"` // total ammonia, as nitrogen
	OxygenDemand  unit.MassRate `sym:"R_O2"`  // of the fish alone
	CarbonDioxide unit.MassRate `sym:"P_CO2"`
	Solids        unit.MassRate `sym:"P_TSS"` // dry
}

// WasteFromFeed gives what the fish leave in the water and take from it for the feed they eat.
//
//	P_TAN = 0.092 PC M,  R_O2 = 0.25 M,  P_CO2 = 1.375 R_O2,  P_TSS = 0.25 M
//
// 0.092 is 0.16 nitrogen in protein, 0.80 assimilated, 0.80 excreted, 0.90 of it as ammonia. That a gram of feed takes as
// much oxygen as it leaves dry solids is chance: they are two figures. Feed of 20 to 50 % protein.
//
// Measured excretion lies lower (39 % of the nitrogen fed, against 57.5 % here), so the ammonia is on the safe side.
// Source: Timmons & Ebeling, Recirculating Aquaculture (from memory).
var WasteFromFeed = working.Formula[WasteInput, Waste]{
	ID: "stock.waste-from-feed", Name: "ammonia, oxygen, carbon dioxide and solids from feed",
	Equation: "P_TAN = 0.092 PC M; R_O2 = 0.25 M; P_CO2 = 1.375 R_O2; P_TSS = 0.25 M", Source: source.FeedWaste,
	Outside: func(in WasteInput) string { return outsideProtein(in.Protein) },
	Eval: func(in WasteInput) Waste {
		M, PC := float64(in.Feed), in.Protein.Float()
		R := 0.25 * M
		return Waste{
			TAN:           unit.MassRate(0.092 * PC * M),
			OxygenDemand:  unit.MassRate(R),
			CarbonDioxide: unit.MassRate(1.375 * R),
			Solids:        unit.MassRate(0.25 * M),
		}
	},
}

// FeedFor gives the feed that leaves so much ammonia in the water: WasteFromFeed turned round. Protein of nothing takes
// TypicalProtein.
func FeedFor(tan unit.MassRate, protein unit.Ratio) unit.MassRate {
	if protein == 0 {
		protein = TypicalProtein
	}
	one := WasteFromFeed.Eval(WasteInput{Feed: 1, Protein: protein})
	return unit.MassRate(float64(tan) / float64(one.TAN))
}

func outsideProtein(p unit.Ratio) string {
	if p < 0.2 || p > 0.5 {
		return "feed outside 20 to 50 % protein"
	}
	return ""
}
