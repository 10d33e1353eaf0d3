package wire

import (
	"fmt"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A Plan is a brief worked out as far as it goes without a catalogue.
type Plan struct {
	Pond       Pond
	Now, Grown stock.Load
	Question   kit.Question
	Apart      *kit.Ways // of two pumps; nil where the water has one way only
	Findings   []finding.Finding
	WayAssumed []finding.Finding // of two pumps apart: what was taken for the way of the second

	demanded kit.Demands
}

// PlanBrief works a brief out: the water, the fish, the flow wanted. Errors carry field paths from the brief on.
func PlanBrief(t *working.Trail, b *pb.Brief) (Plan, error) {
	var errs input.Errors
	pond, err := MeasurePond(t, b.GetPond())
	if err != nil && !errs.AddUnder("pond", err) {
		return Plan{}, err
	}
	p := Plan{Pond: pond}
	p.note(pond.Findings...)
	if err := p.site(b); err != nil && !errs.AddUnder("delivery", err) {
		return Plan{}, err
	}
	p.winter(b.GetWinter())
	said := FishWater(b.GetWater())
	groups := Groups(b.GetStock())
	errs = append(errs, p.equipment(b, len(groups) > 0)...)
	fish := p.summer(said, len(groups) > 0)
	t.About("fish")
	if err := p.fish(t, b, groups, fish); err != nil && !errs.AddUnder("stock", err) {
		return Plan{}, err
	}
	if err := errs.Err(); err != nil {
		return Plan{}, err
	}
	t.About("water")
	p.Question.Volume = pond.Volume
	p.Question.PH, p.Question.Warmest = fish.PH, fish.Temperature
	p.Question.Water = water.At(t, said.Temperature)
	t.About("flow wanted")
	p.flow(t, b)
	if err := p.split(b); err != nil && !errs.AddUnder("filter_delivery", err) {
		return Plan{}, err
	}
	if len(p.Question.Wanted.Needs) == 0 {
		errs.Add("fall", "give a fall, or fish and a filter, or a turnover for the filter", "nothing in the brief asks for a flow")
	}
	return p, errs.Err()
}

// summer is the water that fish and filter are judged in: as warm as was said, and no colder than a summer, for a filter that
// is chosen in spring has to carry the fish in July.
func (p *Plan) summer(said Water, anyFish bool) Water {
	if !anyFish && !p.Question.Filter {
		return said
	}
	p.note(said.Findings...)
	judged := said
	if judged.Temperature >= assume.SummerTemperature {
		return judged
	}
	judged.Temperature = assume.SummerTemperature
	p.note(finding.Finding{
		Code: "JUDGED_IN_SUMMER", Severity: finding.Caution, Subject: "filter",
		Sentence: fmt.Sprintf("The brief gives %g °C. The fish eat most in summer and the filter has to carry them then: both are judged at %g °C.",
			said.Temperature.Celsius(), judged.Temperature.Celsius()),
		Value: finding.Of(said.Temperature.Celsius(), "°C"), Limit: finding.Of(judged.Temperature.Celsius(), "°C"),
		Change: "give the temperature of the water on a summer evening", Source: source.Choice,
	})
	return judged
}

// site reads where the water goes and how long it runs.
func (p *Plan) site(b *pb.Brief) error {
	d, r := b.GetDelivery(), b.GetRunning()
	if r == nil {
		r = &pb.Running{}
	}
	q := &p.Question
	fittings, err := Fittings(d.GetFittings(), d.GetFittingsInWords())
	q.Hose, q.Fittings, q.Wall = unit.Metres(d.GetHoseLengthM()), fittings, Wall(d.GetWall())
	q.Lift = unit.MetresOfWater(d.GetOutletHeightM())
	if f := b.GetFall(); f != nil {
		q.Lift = unit.MetresOfWater(f.GetHeightM())
	}
	q.Budget, q.Tariff, q.Tolerance = b.GetWishes().GetBudget(), r.GetEnergyPricePerKwh(), pump.Usual()
	q.Stock = stockRules[b.GetWishes().GetAvailability()]
	q.RunsDaily = assumed(p, optional(r.HoursPerDay, unit.Hours), assume.RunsDaily,
		assume.Note("running", "How long it runs a day", assume.RunsDaily.Hours(), "h", "say so, if it stops at night; with fish it must not"))
	q.Years = assumed(p, r.Years, assume.Years,
		assume.Note("cost", "Over how many years cost is added up", assume.Years, "years", "say how long the owner looks ahead"))
	if q.Tariff == 0 {
		p.note(finding.Finding{
			Code: "NO_ENERGY_PRICE", Severity: finding.Note, Subject: "cost",
			Sentence: "No price of energy was given: kit is ranked by what it costs to buy alone.",
			Change:   "give energy_price_per_kwh",
		})
	}
	return err
}

// equipment reads what kinds of kit are wanted.
func (p *Plan) equipment(b *pb.Brief, anyFish bool) (errs input.Errors) {
	w, owned := b.GetWishes(), b.GetOwned()
	if w == nil {
		w = &pb.Wishes{}
	}
	refuse := func(kind string) {
		errs.Add("owned."+kind, "leave it out, or let the wishes take one", "it is owned and the wishes want none")
	}
	p.Question.Filter = wanted(w.GetFilter(), anyFish || owned.GetFilter() != nil)
	p.Question.Lamp = wanted(w.GetLampUnit(), anyFish || owned.GetLampUnit() != nil)
	if owned.GetFilter() != nil && !p.Question.Filter {
		refuse("filter")
	}
	if owned.GetLampUnit() != nil && !p.Question.Lamp {
		refuse("lamp_unit")
	}
	if p.Question.Filter {
		p.Question.Margin = assumed(p, optional(w.FilterMarginPercent, unit.Percent), assume.FilterMargin,
			assume.Note("filter", "What the filter is to carry above its load", assume.FilterMargin.Percent(), "%", "say how much larger it is to be"))
	} else if anyFish {
		p.note(finding.Finding{
			Code: "FISH_WITHOUT_FILTER", Severity: finding.Caution, Subject: "filter",
			Sentence: "There are fish and no filter is wanted: what they give off is left to plants and mud, which nobody has calculated here.",
			Change:   "keep few fish, feed little, and test the water for ammonia and nitrite",
		})
	}
	if p.Question.Lamp {
		lit := LitWater(b.GetWater())
		p.Question.UV = lit.Transmittance
		p.note(lit.Findings...)
	}
	return errs
}

func wanted(w pb.Want, otherwise bool) bool {
	if w == pb.Want_WANT_UNSPECIFIED {
		return otherwise
	}
	return w == pb.Want_WANT_YES
}

func (p *Plan) fish(t *working.Trail, b *pb.Brief, groups []stock.Group, w Water) error {
	p.Question.Stocking = Stocking(groups)
	if len(groups) == 0 {
		return nil
	}
	now, grown, found, err := stock.Loads(t, groups, Feeding(b.GetStock(), w))
	if err != nil {
		return err
	}
	p.Now, p.Grown, p.Question.Load = now, grown, grown
	p.note(found...)
	return nil
}

func (p *Plan) flow(t *working.Trail, b *pb.Brief) {
	q := &p.Question
	d := p.demands(b)
	if q.Filter && q.Load.TAN > 0 {
		share := filter.UnionisedShare.Run(t, filter.UnionisedShareInput{Temperature: q.Warmest, PH: q.PH})
		limit := filter.TANLimit.Run(t, filter.TANLimitInput{Unionised: filter.UnionisedLimit, Total: filter.TotalLimit, Share: share})
		d.LeastFlow = filter.LeastFlow.Run(t, filter.LeastFlowInput{Load: q.RunningLoad(), Limit: limit})
	}
	if q.Filter && q.Load.Count > 0 && q.RunsDaily < unit.Hours(24) {
		p.note(stopsWithFish(q.RunsDaily))
	}
	var found []finding.Finding
	q.Wanted, found = kit.Flows(t, d)
	p.note(found...)
	p.demanded = d
}

func (p *Plan) demands(b *pb.Brief) kit.Demands {
	q := &p.Question
	d := kit.Demands{
		Filter: q.Filter, Stocking: q.Stocking, Volume: q.Volume, Turnover: unit.PerHour(b.GetWishes().GetTurnoverPerH()),
	}
	if f := b.GetFall(); f != nil {
		d.Sheet, d.Sill, d.FallFlow = Sheet(f), unit.Centimetres(f.GetSillWidthCm()), unit.LitresPerHour(f.GetFlowLPerH())
	}
	return d
}

// WantedFlow turns the flow wanted into a message.
func WantedFlow(w kit.Wanted) *pb.WantedFlow {
	made := &pb.WantedFlow{LeastLPerH: w.Least.LitresPerHour(), MostLPerH: given(w.Most.LitresPerHour())}
	for _, n := range w.Needs {
		made.Needs = append(made.Needs, &pb.FlowNeed{
			Need: n.Name, LeastLPerH: n.Least.LitresPerHour(), MostLPerH: given(n.Most.LitresPerHour()),
			Sentence: n.Sentence, Source: Source(n.Source),
		})
	}
	return made
}

func cost(c kit.Cost, tariff bool, currency string) *pb.KitCost {
	made := &pb.KitCost{
		Currency: currency, Price: c.Price, EnergyKwhPerYear: c.Energy.KilowattHours(), LampCostPerYear: given(c.LampsPerYear),
		Years: c.Years, Total: c.Total,
	}
	if tariff {
		made.EnergyCostPerYear = &c.EnergyPerYear
	}
	return made
}

func stopsWithFish(daily unit.Time) finding.Finding {
	return finding.Finding{
		Code: "PUMP_STOPS_WITH_FISH", Severity: finding.Caution, Subject: "pump",
		Sentence: fmt.Sprintf("The pump runs %g hours a day and there are fish: while it stands the filter gets no oxygen and its bacteria begin to die, and the fish get theirs from the surface alone.",
			daily.Hours()),
		Value: finding.Of(daily.Hours(), "h"), Limit: finding.Of(24, "h"),
		Change: "let it run day and night; if it must stop, not in warm weather and never for long", Source: source.Practice,
	}
}
