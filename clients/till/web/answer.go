package web

import (
	"fmt"
	"html/template"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/till/form"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// An answer to the form.
type answer struct {
	Said     string // in one sentence
	Kits     []kit
	Miss     *kit
	Why      []string
	Losers   []loser
	Stops    template.HTML
	Counted  string
	Assumed  []remark
	Cautions []remark
	Notes    []remark
	Pond     []fact
	Notices  []string // of the catalogues
	Foreign  bool     // sentences of the engine are in litres and metres, and the customer thinks otherwise
}

// A loser is a set that falls short, and why.
type loser struct{ What, Why string }

func (v viewer) answer(resp *pb.SuggestKitsResponse) *answer {
	a := &answer{Why: resp.GetWhyFirst(), Notices: notices(resp.GetProvenance()), Foreign: v.system.Key != "metric"}
	a.Assumed, a.Cautions, a.Notes = remarks(resp.GetFindings())
	a.Pond = v.pond(resp.GetPond(), resp.GetFishGrown(), resp.GetWanted())
	for i, k := range resp.GetKits() {
		heading := fmt.Sprintf("Kit %d", i+1)
		if i == 0 {
			heading = "Kit 1, the best"
		}
		a.Kits = append(a.Kits, v.kit(k, fmt.Sprintf("kit%d", i+1), heading, resp.GetWanted()))
	}
	if len(a.Kits) > 0 {
		first := resp.GetKits()[0]
		a.Said = fmt.Sprintf("The best kit costs %s.", figure.Money(first.GetCost().GetCurrency(), first.GetCost().GetPrice()))
	} else {
		a.Said = "No kit in the catalogue does this."
	}
	if k := resp.GetNearestMiss(); k != nil && len(a.Kits) == 0 {
		miss := v.kit(k, "miss", "The nearest miss", resp.GetWanted())
		a.Miss = &miss
	}
	for _, l := range resp.GetLosers() {
		a.Losers = append(a.Losers, v.loser(l))
	}
	a.Stops, _ = ruledOut(resp.GetSearched())
	a.Counted = counted(resp.GetSearched())
	return a
}

func (v viewer) loser(l *pb.Loser) loser {
	why := l.GetStop().GetSentence()
	what := "this set"
	for _, kind := range single {
		if itemKinds[kind] == l.GetDiffers() {
			c := itemsOf(l.GetKit())[kind]
			what = c.GetItem().GetItemNumber() + ", " + c.GetItem().GetDescription()
			if c.GetItem() == nil {
				what = "no " + kindNames[kind]
			}
		}
	}
	return loser{what, why}
}

func counted(s *pb.SearchCount) string {
	said := fmt.Sprintf("%s sets can be made of the catalogue", figure.Count(s.GetSets()))
	if s.GetWorking() > 0 {
		said += fmt.Sprintf("; %s were calculated in full and work", figure.Count(s.GetWorking()))
	} else {
		said += "; none of them works"
	}
	if s.GetBeaten() > 0 {
		said += fmt.Sprintf("; %s were proven to be no better than one that works", figure.Count(s.GetBeaten()))
	}
	return said + "."
}

func (v viewer) pond(p *pb.PondMeasures, fish *pb.FishLoad, wanted *pb.WantedFlow) []fact {
	var facts []fact
	if p.GetNetVolumeL() > 0 {
		facts = append(facts, fact{Label: "Water", Value: v.round(form.Volume, p.GetNetVolumeL())})
	} else if p.GetVolumeL() > 0 {
		facts = append(facts, fact{Label: "Water", Value: v.round(form.Volume, p.GetVolumeL())})
	}
	if wanted != nil {
		value := "at least " + v.round(form.Flow, wanted.GetLeastLPerH())
		if wanted.MostLPerH != nil {
			value = figure.Digits(v.system.From(form.Flow, wanted.GetLeastLPerH()), 3) + " to " + v.round(form.Flow, wanted.GetMostLPerH())
		}
		facts = append(facts, fact{Label: "Flow wanted", Value: value})
	}
	if fish != nil && fish.GetCount() > 0 {
		facts = append(facts, fact{Label: "Fish when grown", Value: figure.With(fish.GetMassKg(), "kg")})
	}
	return facts
}

func notices(p *pb.Provenance) []string {
	var said []string
	for _, c := range p.GetCatalogues() {
		if c.GetNotice() != "" {
			said = append(said, c.GetNotice())
		}
		if c.GetFault() != "" {
			said = append(said, "The catalogue "+c.GetCatalogue()+" could not be read last time; what was read before is in force.")
		}
	}
	return said
}
