package stock

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// assumptions are the findings on a valid question: what was taken for granted, and where a formula reaches its end.
func assumptions(groups []Group, f Feeding) []finding.Finding {
	if len(groups) == 0 {
		return nil
	}
	return slices.Concat(fishFindings(groups), proteinFindings(f.Protein), waterFindings(f.Temperature))
}

func fishFindings(groups []Group) []finding.Finding {
	found := grownLengths(groups)
	byKind := func(s Species) bool {
		return slices.ContainsFunc(groups, func(g Group) bool { return g.Species == s && g.Build == (Build{}) })
	}
	if byKind(Koi) {
		found = append(found, roundKoi)
	}
	if byKind(Other) {
		found = append(found, otherFish)
	}
	for _, g := range groups {
		if outside := outsideLength(g.Length); outside != "" {
			return append(found, unusualLength(g.Length))
		}
	}
	return found
}

func grownLengths(groups []Group) []finding.Finding {
	var found []finding.Finding
	for s := Goldfish; s <= Other; s++ {
		if slices.ContainsFunc(groups, func(g Group) bool { return g.Species == s && g.GrownLength == 0 }) {
			found = append(found, grownLengthTaken(s))
		}
	}
	return found
}

func grownLengthTaken(s Species) finding.Finding {
	l := s.GrownLength().Centimetres()
	return finding.Finding{
		Code: "GROWN_LENGTH_ASSUMED", Severity: finding.Note, Subject: "fish",
		Sentence: fmt.Sprintf("No grown length was given for %s, so %.0f cm was taken, or the length now where that is more.", s, l),
		Value:    finding.Of(l, "cm"), Change: "Give the length these fish are expected to reach.", Source: source.Choice,
	}
}

var roundKoi = finding.Finding{
	Code: "KOI_MAY_BE_HEAVIER", Severity: finding.Note, Subject: "fish",
	Sentence: "A well-fed koi can weigh 10 to 30 % more than its length suggests.",
	Change:   "Weigh one fish and compare, or leave more margin.", Source: source.Practice,
}

var otherFish = finding.Finding{
	Code: "FISH_MASS_GENERAL", Severity: finding.Caution, Subject: "fish",
	Sentence: "Fish that are neither goldfish nor carp were given the median exponent of all species and a deep build; slender fish weigh less.",
	Change:   "Weigh one, or give the length–mass coefficient and exponent of its kind.", Source: source.LengthMassMedian,
}

func unusualLength(l unit.Length) finding.Finding {
	return finding.Finding{
		Code: "FISH_LENGTH_UNUSUAL", Severity: finding.Caution, Subject: "fish",
		Sentence: fmt.Sprintf("A fish of %.1f cm lies outside the 5 to 100 cm the length–mass relation is used for here.", l.Centimetres()),
		Value:    finding.Of(l.Centimetres(), "cm"), Change: "Check the length; weigh a fish of this size.", Source: source.CarpLengthMass,
	}
}

func proteinFindings(p unit.Ratio) []finding.Finding {
	if p == 0 {
		return []finding.Finding{ProteinAssumed()}
	}
	if outsideProtein(p) == "" {
		return nil
	}
	return []finding.Finding{{
		Code: "PROTEIN_UNUSUAL", Severity: finding.Caution, Subject: "feed",
		Sentence: fmt.Sprintf("Feed with %.0f %% protein lies outside the 20 to 50 %% the waste figures are used for here.", p.Percent()),
		Value:    finding.Of(p.Percent(), "%"), Change: "Check the feed's label.", Source: source.FeedWaste,
	}}
}

// ProteinAssumed is the finding that TypicalProtein was taken.
func ProteinAssumed() finding.Finding {
	return finding.Finding{
		Code: "PROTEIN_ASSUMED", Severity: finding.Note, Subject: "feed",
		Sentence: fmt.Sprintf("No protein content was given, so %.0f %% was taken.", TypicalProtein.Percent()),
		Value:    finding.Of(TypicalProtein.Percent(), "%"), Change: "Read the feed's label.", Source: source.CarpProtein,
	}
}

func waterFindings(T unit.Temperature) []finding.Finding {
	value := finding.Of(T.Celsius(), "°C")
	switch {
	case T <= FeedingStops:
		return []finding.Finding{{
			Code: "WATER_TOO_COLD_TO_FEED", Severity: finding.Note, Subject: "feed",
			Sentence: fmt.Sprintf("At %.1f °C the fish are not fed, so they add next to no ammonia; they still breathe.", T.Celsius()),
			Value:    value, Limit: finding.Of(FeedingStops.Celsius(), "°C"),
			Change: "Judge the filter at summer temperature.", Source: source.CarpFeeding,
		}}
	case T > FeedRangeEnds:
		return []finding.Finding{{
			Code: "WATER_TOO_WARM", Severity: finding.Caution, Subject: "fish",
			Sentence: fmt.Sprintf("At %.1f °C the water is warmer than the feeding rule covers; the ration of %.0f °C was kept.", T.Celsius(), FeedRangeEnds.Celsius()),
			Value:    value, Limit: finding.Of(FeedRangeEnds.Celsius(), "°C"),
			Change: "Shade the pond, keep the water moving and feed little.", Source: source.FeedRule,
		}}
	}
	return nil
}
