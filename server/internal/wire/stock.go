package wire

import (
	"math"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

var species = map[pb.Species]stock.Species{
	pb.Species_SPECIES_GOLDFISH: stock.Goldfish,
	pb.Species_SPECIES_KOI:      stock.Koi,
	pb.Species_SPECIES_CARP:     stock.Carp,
	pb.Species_SPECIES_OTHER:    stock.Other,
}

// Groups reads the fish.
func Groups(s *pb.Stock) []stock.Group {
	var groups []stock.Group
	for _, g := range s.GetGroups() {
		groups = append(groups, stock.Group{
			Species: species[g.GetSpecies()], Count: int(g.GetCount()),
			Length: unit.Centimetres(g.GetLengthCm()), GrownLength: unit.Centimetres(g.GetGrownLengthCm()),
			After: years(g.GetAfterYears()),
			Build: stock.Build{Coefficient: g.GetLengthMassCoefficient(), Exponent: g.GetLengthMassExponent()},
		})
	}
	return groups
}

func years(y float64) unit.Time { return unit.Time(y * float64(stock.Year)) }

// FishThen reads the fish as they will be so many years from now, or grown where that is not said.
func FishThen(t *working.Trail, s *pb.Stock, after *float64) ([]stock.Group, []finding.Finding, error) {
	if after == nil {
		return stock.Grown(Groups(s))
	}
	return stock.Then(t, Groups(s), years(*after))
}

// Feeding reads what the fish are fed.
func Feeding(s *pb.Stock, w Water) stock.Feeding {
	return stock.Feeding{Temperature: w.Temperature, Protein: unit.Percent(s.GetProteinPercent())}
}

// Stocking is the most demanding fish there are.
func Stocking(groups []stock.Group) filter.Stocking {
	kind := filter.NoFish
	for _, g := range groups {
		if g.Species == stock.Goldfish {
			kind = max(kind, filter.GoldfishPond)
		} else {
			kind = filter.KoiPond
		}
	}
	return kind
}

// FishLoad turns a load into a message.
func FishLoad(l stock.Load) *pb.FishLoad {
	return &pb.FishLoad{
		Count: int32(min(l.Count, math.MaxInt32)), MassKg: l.Mass.Kilograms(), FeedGPerDay: l.Feed.GramsPerDay(),
		TanGPerDay: l.TAN.GramsPerDay(), OxygenGPerDay: l.OxygenDemand.GramsPerDay(), SolidsGPerDay: l.Solids.GramsPerDay(), CarbonDioxideGPerDay: l.CarbonDioxide.GramsPerDay(),
	}
}

// Portraits turns one fish of each group, now and grown, into messages.
func Portraits(now, grown []stock.Portrait) []*pb.GroupPortrait {
	made := make([]*pb.GroupPortrait, len(now))
	for i := range now {
		made[i] = &pb.GroupPortrait{Now: portrait(now[i]), Grown: portrait(grown[i])}
	}
	return made
}

func portrait(p stock.Portrait) *pb.FishPortrait {
	return &pb.FishPortrait{LengthCm: p.Length.Centimetres(), MassG: p.Mass.Grams(), FeedPercentPerDay: 100 * p.Ration.PerDay()}
}

// YearsOfFish turns the loads of one year after the other into messages.
func YearsOfFish(loads []stock.Load) []*pb.YearOfFish {
	made := make([]*pb.YearOfFish, len(loads))
	for y, load := range loads {
		made[y] = &pb.YearOfFish{AfterYears: float64(y), Load: FishLoad(load)}
	}
	return made
}

// StockingRules turns the trade's rules into messages.
func StockingRules(rules []stock.Rule) []*pb.StockingRule {
	made := make([]*pb.StockingRule, len(rules))
	for i, r := range rules {
		made[i] = &pb.StockingRule{
			Name: r.Name, Basis: r.Basis, Value: quantity(&r.Value), Grown: quantity(&r.Grown), Limit: quantity(&r.Limit), Source: Source(r.Source),
		}
	}
	return made
}

// FilterVerdict turns an assessment into a message.
func FilterVerdict(a filter.Assessment) *pb.FilterVerdict {
	return &pb.FilterVerdict{
		CapacityTanGPerDay: &pb.Band{
			Low: a.Capacity.Low.GramsPerDay(), Expected: a.Capacity.Expected.GramsPerDay(), High: a.Capacity.High.GramsPerDay(),
		},
		WantedTanGPerDay: a.CapacityWanted.GramsPerDay(), HeadroomPercent: a.Headroom.Percent(),
		TanLimitMgPerL: a.TANLimit.MilligramsPerLitre(), LeastFlowLPerH: a.LeastFlow.LitresPerHour(),
	}
}
