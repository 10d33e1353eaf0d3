package service

import (
	"slices"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/oxygen"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// notJudged says that fish which are not fed say nothing of their filter.
func notJudged(grown stock.Load) []finding.Finding {
	if grown.Count == 0 || grown.TAN > 0 {
		return nil
	}
	return []finding.Finding{filter.NotJudged()}
}

// withoutGrowth leaves out what is said of grown fish, which do not grow while a filter ripens.
func withoutGrowth(found []finding.Finding) []finding.Finding {
	return slices.DeleteFunc(found, func(f finding.Finding) bool { return f.Code == "GROWN_LENGTH_ASSUMED" })
}

// merged adds findings that are not there yet.
func merged(found, more []finding.Finding) []finding.Finding {
	for _, f := range more {
		if !slices.ContainsFunc(found, func(g finding.Finding) bool { return g.Code == f.Code && g.Sentence == f.Sentence }) {
			found = append(found, f)
		}
	}
	return found
}

// fishIn counts the fish of all steps: none where all ammonia is put in by hand.
func fishIn(steps []*pb.LoadStep) (count int) {
	for _, step := range steps {
		for _, g := range step.GetStock().GetGroups() {
			count += int(g.GetCount())
		}
	}
	return count
}

// breath judges the oxygen of water that holds fish.
func breath(fish int, dissolved unit.Concentration) []finding.Finding {
	if fish == 0 {
		return nil
	}
	return oxygen.Judge(dissolved)
}

// aboveMade says where more water runs than the filter is made for.
func aboveMade(req *pb.BalanceWaterRequest) []finding.Finding {
	f := filter.AboveMade(unit.LitresPerHour(req.GetFlowLPerH()), unit.LitresPerHour(req.GetFilter().GetMaxFlowLPerH()))
	if f == nil {
		return nil
	}
	return []finding.Finding{*f}
}

// laterFish are those of a step that are not yet in the pond, and so not counted.
func laterFish(step *pb.LoadStep) []finding.Finding {
	if !slices.ContainsFunc(step.GetStock().GetGroups(), func(g *pb.FishGroup) bool { return g.GetAfterYears() > 0 }) {
		return nil
	}
	return []finding.Finding{stock.LaterNotCounted()}
}

// welfare is the caution that goes with water that fish live in.
func welfare(load stock.Load) []finding.Finding {
	if load.Count == 0 {
		return nil
	}
	return []finding.Finding{stock.Welfare()}
}
