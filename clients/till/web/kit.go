package web

import (
	"fmt"
	"html/template"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/till/form"
	"example.com/pondwright/clients/till/recall"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A kit as the page shows it.
type kit struct {
	ID, Heading string
	Works       bool
	First       bool // shown unfolded
	Items       []item
	Figures     []fact
	Reasons     []string
	Cautions    []remark
	Notes       []remark
	Pictures    []template.HTML
	// Query holds the brief and the set, for the pages that go on from here.
	Query template.URL
	// OnePump reports whether the set can be named item by item.
	OnePump bool
	Short   string // "PU-1230, HO-4050, FI-2050"
}

type kitOf struct {
	Kit  kit
	Page page
}

// A fact is a figure with its name, and what stands behind it.
type fact struct{ Label, Value, More string }

// An item of a kit.
type item struct {
	Kind, Number, Description, Price, Stock string
	Gone, Owned                             bool
	// SwapQuery asks for something in its place.
	SwapQuery template.URL
}

func (v viewer) kit(k *pb.Kit, id, heading string, wanted *pb.WantedFlow) kit {
	s := setOf(k)
	q := v.values.Query()
	s.put(q)
	made := kit{ID: id, Heading: heading, Works: k.GetWorks(), First: id == "kit1" || id == "miss", OnePump: k.GetSecondPump() == nil, Query: template.URL(q.Encode())}
	made.Items = v.items(k, s)
	for i, it := range made.Items {
		if i > 0 {
			made.Short += ", "
		}
		made.Short += it.Number
	}
	made.Figures = v.figures(k)
	made.Reasons = v.reasons(k, wanted)
	_, made.Cautions, made.Notes = remarks(k.GetFindings())
	made.Pictures = v.pictures(k, id, wanted)
	return made
}

func (v viewer) items(k *pb.Kit, s set) []item {
	var all []item
	named := itemsOf(k)
	for _, kind := range recall.Kinds {
		c := named[kind]
		if c.GetItem() == nil {
			continue
		}
		it := v.item(k, c, kind)
		it.Owned = s.Owned[kind]
		switch {
		case kind == "pump2" && k.GetSecondPump().GetArrangement() == pb.TwoPumps_TWO_PUMPS_FILTER_AND_FALL:
			it.Kind = "pump for the fall"
		case kind == "hose2":
			it.Kind = "hose to the fall"
		}
		if k.GetSecondPump() == nil && s.Items[kind] != "" && !it.Owned {
			q := v.values.Query()
			s.put(q)
			q.Set("out", kind)
			it.SwapQuery = template.URL(q.Encode())
		}
		all = append(all, it)
	}
	return all
}

func (v viewer) item(k *pb.Kit, c *pb.CataloguedItem, kind string) item {
	it := item{Kind: kindNames[kind], Number: c.GetItem().GetItemNumber(), Description: c.GetItem().GetDescription()}
	currency := k.GetCost().GetCurrency()
	if price := c.GetItem().Price; price != nil {
		it.Price = figure.Money(currency, *price)
	}
	if h := c.GetItem().GetHose(); h != nil {
		length := k.GetHoseLengthM()
		if kind == "hose2" {
			length = k.GetSecondPump().GetHoseLengthM()
		}
		it.Description = v.hose(c, length)
		if h.PricePerM != nil {
			it.Price = figure.Money(currency, h.GetPricePerM()*length)
		}
	}
	if n, known := inStock(c); known {
		it.Gone = n <= 0
		it.Stock = figure.Count(n) + " in stock"
		if it.Gone {
			it.Stock = "out of stock"
		}
	}
	return it
}

func (v viewer) hose(c *pb.CataloguedItem, length float64) string {
	return v.round(form.Length, length) + " of " + c.GetItem().GetDescription()
}

func (v viewer) figures(k *pb.Kit) []fact {
	c := k.GetCost()
	facts := []fact{{"Price", figure.Money(c.GetCurrency(), c.GetPrice()), "to buy"}}
	running := fact{Label: "Running cost", More: figure.Count(int64(c.GetEnergyKwhPerYear()+0.5)) + " kWh a year"}
	if c.EnergyCostPerYear != nil {
		running.Value = figure.Money(c.GetCurrency(), c.GetEnergyCostPerYear()+c.GetLampCostPerYear())
		running.More = "a year, " + running.More
		if running.More = "a year: electricity"; c.GetLampCostPerYear() > 0 {
			running.More += " and new lamps"
		}
	} else {
		running.Value, running.More = running.More, "without a price of electricity no cost is told"
	}
	facts = append(facts, running)
	for _, s := range together(fallStates(k)) {
		facts = append(facts, fact{
			"Flow, " + s.name(k.GetFilter() != nil), v.round(form.Flow, s.GetDuty().GetFlowLPerH().GetExpected()),
			v.round(form.Flow, s.GetDuty().GetFlowLPerH().GetLow()) + " to " + v.round(form.Flow, s.GetDuty().GetFlowLPerH().GetHigh()),
		})
	}
	return facts
}

// fallStates are those of the pump that feeds the fall.
func fallStates(k *pb.Kit) []*pb.StateDuty {
	if s := k.GetSecondPump().GetStates(); len(s) > 0 {
		return s
	}
	return k.GetStates()
}

func (v viewer) reasons(k *pb.Kit, wanted *pb.WantedFlow) []string {
	var said []string
	if states := fallStates(k); len(states) > 0 && wanted != nil {
		least := states[0].GetDuty().GetFlowLPerH().GetExpected()
		for _, s := range states {
			if s.GetState() != pb.RunningState_RUNNING_STATE_WINTER {
				least = min(least, s.GetDuty().GetFlowLPerH().GetExpected())
			}
		}
		said = append(said, fmt.Sprintf("With the filter due for cleaning it still brings %s; %s.", v.round(form.Flow, least), v.wanted(wanted)))
		if k.GetFilter() == nil || together(states)[0].both {
			said[0] = fmt.Sprintf("It brings %s; %s.", v.round(form.Flow, least), v.wanted(wanted))
		}
	}
	if f := k.GetFilterVerdict(); f != nil && f.GetWantedTanGPerDay() > 0 {
		verb := "carries"
		if f.GetHeadroomPercent() < 0 {
			verb = "does not carry"
		}
		said = append(said, fmt.Sprintf("The filter %s the fish when they are grown: it takes up %s of ammonia nitrogen a day of %s wanted.", verb,
			figure.With(f.GetCapacityTanGPerDay().GetExpected(), "g"), figure.With(f.GetWantedTanGPerDay(), "g")))
	}
	if d := k.GetLampDose(); d != nil && d.WantedDailyMjPerCm2 != nil {
		said = append(said, fmt.Sprintf("With its lamps at the end of their life the lamp unit gives the pond %s a day; %s are wanted.",
			figure.With(d.GetDailyMjPerCm2(), "mJ/cm²"), figure.Number(d.GetWantedDailyMjPerCm2())))
	}
	if room := k.GetHeadroomPercent(); room >= 0 && k.GetTightest() != "" {
		said = append(said, fmt.Sprintf("It is %s away from its tightest limit, which is %s.", figure.Digits(room, 2)+figure.Space+"%", k.GetTightest()))
	}
	return said
}

func (v viewer) wanted(w *pb.WantedFlow) string {
	if w.MostLPerH != nil {
		return "wanted are " + figure.Digits(v.system.From(form.Flow, w.GetLeastLPerH()), 3) + " to " + v.round(form.Flow, w.GetMostLPerH())
	}
	return "wanted are at least " + v.round(form.Flow, w.GetLeastLPerH())
}

// inStock is what the catalogue counts of an item, where it counts.
func inStock(c *pb.CataloguedItem) (n int64, known bool) {
	m := c.GetItem().ProtoReflect()
	f := m.Descriptor().Fields().ByName("in_stock")
	if f == nil || !m.Has(f) {
		return 0, false
	}
	return m.Get(f).Int(), true
}
