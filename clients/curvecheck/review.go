package main

import (
	"cmp"
	"slices"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// joined adds the review of a block that begins at a place to that of those before it.
func joined(a, b *pondwrightv1.CurveReview, place int) *pondwrightv1.CurveReview {
	sum := &pondwrightv1.CurveReview{
		CurveCount: a.GetCurveCount() + b.GetCurveCount(), SoundCount: a.GetSoundCount() + b.GetSoundCount(), NoteCount: a.GetNoteCount() + b.GetNoteCount(),
		CautionCount: a.GetCautionCount() + b.GetCautionCount(), StopCount: a.GetStopCount() + b.GetStopCount(),
		EfficiencyPercent: together(a.GetEfficiencyPercent(), b.GetEfficiencyPercent()),
		SpecificSpeed:     together(a.GetSpecificSpeed(), b.GetSpecificSpeed()),
		Coverage:          &pondwrightv1.CurveCoverage{Duties: duties(a.GetCoverage(), b.GetCoverage())},
	}
	counts := map[string]int32{}
	for _, d := range slices.Concat(a.GetDefects(), b.GetDefects()) {
		counts[d.GetCode()] += d.GetCurveCount()
	}
	for code, n := range counts {
		sum.Defects = append(sum.Defects, &pondwrightv1.CurveDefectCount{Code: code, CurveCount: n})
	}
	slices.SortFunc(sum.Defects, func(x, y *pondwrightv1.CurveDefectCount) int {
		return cmp.Or(cmp.Compare(y.GetCurveCount(), x.GetCurveCount()), cmp.Compare(x.GetCode(), y.GetCode()))
	})
	sum.Outliers = slices.Clone(a.GetOutliers())
	for _, o := range b.GetOutliers() {
		o.Place += int32(place)
		sum.Outliers = append(sum.Outliers, o)
	}
	slices.SortStableFunc(sum.Outliers, func(x, y *pondwrightv1.CurveOutlier) int { return cmp.Compare(y.GetDeviations(), x.GetDeviations()) })
	sum.Outliers = sum.Outliers[:min(len(sum.Outliers), 100)]
	return sum
}

// together adds two distributions bin by bin. Bins have the same bounds in every engine of one version.
func together(a, b *pondwrightv1.CurveDistribution) *pondwrightv1.CurveDistribution {
	if a.GetCurveCount() == 0 || b.GetCurveCount() == 0 {
		if a.GetCurveCount() == 0 {
			return b
		}
		return a
	}
	sum := &pondwrightv1.CurveDistribution{CurveCount: a.GetCurveCount() + b.GetCurveCount(), Least: min(a.GetLeast(), b.GetLeast()), Greatest: max(a.GetGreatest(), b.GetGreatest())}
	byFrom := map[float64]*pondwrightv1.CurveBin{}
	for _, bin := range slices.Concat(a.GetBins(), b.GetBins()) {
		if have := byFrom[bin.GetFrom()]; have != nil {
			have.CurveCount += bin.GetCurveCount()
			continue
		}
		made := &pondwrightv1.CurveBin{From: bin.GetFrom(), Below: bin.GetBelow(), CurveCount: bin.GetCurveCount()}
		byFrom[bin.GetFrom()] = made
		sum.Bins = append(sum.Bins, made)
	}
	slices.SortFunc(sum.Bins, func(x, y *pondwrightv1.CurveBin) int { return cmp.Compare(x.GetFrom(), y.GetFrom()) })
	quantile := func(share float64) float64 {
		rank, below := share*float64(sum.GetCurveCount()), 0.0
		for _, bin := range sum.Bins {
			n := float64(bin.GetCurveCount())
			if n > 0 && below+n >= rank {
				return min(max(bin.GetFrom()+(bin.GetBelow()-bin.GetFrom())*(rank-below)/n, sum.Least), sum.Greatest)
			}
			below += n
		}
		return sum.Greatest
	}
	sum.LowerQuartile, sum.Median, sum.UpperQuartile = quantile(0.25), quantile(0.5), quantile(0.75)
	return sum
}

// duties adds two coverages. A gap of one block that a pump of another fills is none.
func duties(a, b *pondwrightv1.CurveCoverage) []*pondwrightv1.CurveDuty {
	type at struct{ q, h float64 }
	all := map[at]*pondwrightv1.CurveDuty{}
	var order []at
	for _, d := range slices.Concat(a.GetDuties(), b.GetDuties()) {
		key := at{d.GetFlowLPerH(), d.GetHeadM()}
		have := all[key]
		if have == nil {
			have = &pondwrightv1.CurveDuty{FlowLPerH: d.GetFlowLPerH(), HeadM: d.GetHeadM()}
			all[key] = have
			order = append(order, key)
		}
		have.PumpCount += d.GetPumpCount()
		have.Gap = have.GetPumpCount() == 0
	}
	slices.SortFunc(order, func(x, y at) int { return cmp.Or(cmp.Compare(x.q, y.q), cmp.Compare(x.h, y.h)) })
	made := make([]*pondwrightv1.CurveDuty, len(order))
	for i, key := range order {
		made[i] = all[key]
	}
	return made
}
