package wire

import (
	"fmt"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	pb "example.com/pondwright/proto/pondwright/v1"
)

var stockRules = map[pb.Availability]kit.StockRule{
	pb.Availability_AVAILABILITY_UNSPECIFIED:   kit.AnyStock,
	pb.Availability_AVAILABILITY_IN_STOCK:      kit.InStock,
	pb.Availability_AVAILABILITY_NOT_KNOWN_OUT: kit.NotKnownOut,
}

var winterPractices = map[pb.WinterPump]kit.WinterPractice{
	pb.WinterPump_WINTER_PUMP_RUNS_ON: kit.RunsOn,
	pb.WinterPump_WINTER_PUMP_MOVED:   kit.Moved,
	pb.WinterPump_WINTER_PUMP_STOPPED: kit.Stopped,
}

var pumpRules = map[pb.Want]kit.PumpRule{
	pb.Want_WANT_UNSPECIFIED: kit.TwoIfNeeded,
	pb.Want_WANT_YES:         kit.AlwaysTwo,
	pb.Want_WANT_NO:          kit.NeverTwo,
}

// usualWinter is how many days a year a pump stands or is moved: December to February.
const usualWinter = 90.0

// winter reads how the pump runs in winter.
func (p *Plan) winter(m *pb.WinterRunning) {
	if m == nil {
		return
	}
	w := &kit.Winter{Practice: winterPractices[m.GetPump()]}
	w.Days = assumed(p, m.Days, usualWinter,
		assume.Note("winter", "How many days a year the pump runs as in winter", usualWinter, "days", "say from when to when it does"))
	p.Question.Winter = w
	if w.Practice == kit.Stopped {
		return
	}
	cold := assumed(p, optional(m.WaterTemperatureC, unit.Celsius), assume.WinterTemperature,
		assume.Note("winter", "The temperature of the water in winter", assume.WinterTemperature.Celsius(), "°C", "never go on the ice to measure it: water under ice is at about 4 °C at the bottom and 0 °C at the top"))
	w.Water = water.At(nil, cold)
	w.Least, w.Most = unit.LitresPerHour(m.GetLeastFlowLPerH()), unit.LitresPerHour(m.GetMostFlowLPerH())
	if w.Practice != kit.Moved {
		return
	}
	w.Filter, w.Lamp = m.GetThroughFilter(), m.GetThroughLampUnit()
	w.Hose = assumed(p, optional(m.HoseLengthM, unit.Metres), p.Question.Hose,
		assume.Note("winter", "The length of hose of the pump in winter", p.Question.Hose.Metres(), "m", "measure the way it has then"))
	w.Lift = assumed(p, optional(m.OutletHeightM, unit.MetresOfWater), 0,
		assume.Note("winter", "The height of the outlet in winter", 0, "m", "say how high above the water it ends"))
	p.note(finding.Finding{
		Code: "WINTER_HOSE_WITHOUT_BENDS", Severity: finding.Note, Subject: "winter",
		Sentence: "The hose of the pump in winter is taken to lie without bends and valves, with its tails and its outlet alone.",
		Change:   "keep it short and without kinks, or describe it to CircuitService", Source: source.Choice,
	})
}

// split makes two questions of one where a fall is fed and something else: of the pump for filter and lamp unit, which gives
// straight back to the pond, and of the pump for the fall.
func (p *Plan) split(b *pb.Brief) error {
	d := p.demanded
	q := p.Question
	if b.GetFall() == nil || !q.Filter && !q.Lamp {
		return nil
	}
	d.Sheet, d.FallFlow = 0, 0
	ways := &kit.Ways{Filter: q, Fall: q}
	if ways.Filter.Wanted, _ = kit.Flows(nil, d); len(ways.Filter.Wanted.Needs) == 0 {
		return nil
	}
	ways.Filter.Lift = 0
	if way := b.GetFilterDelivery(); way != nil {
		fittings, err := Fittings(way.GetFittings(), way.GetFittingsInWords())
		if err != nil {
			return err
		}
		ways.Filter.Hose, ways.Filter.Fittings, ways.Filter.Wall = unit.Metres(way.GetHoseLengthM()), fittings, Wall(way.GetWall())
		ways.Filter.Lift = unit.MetresOfWater(way.GetOutletHeightM())
	} else {
		p.WayAssumed = []finding.Finding{{
			Code: "ASSUMED", Severity: finding.Note, Subject: "filter delivery", Source: source.Choice,
			Sentence: fmt.Sprintf("The way of a pump for the filter alone was not given; %g m of hose with the fittings of the fall, ending at the water, are assumed.",
				q.Hose.Metres()),
			Value: finding.Of(q.Hose.Metres(), "m"), Change: "give filter_delivery",
		}}
	}
	ways.Fall.Filter, ways.Fall.Lamp, ways.Fall.Load = false, false, stock.Load{}
	ways.Fall.Wanted, _ = kit.Flows(nil, kit.Demands{Sheet: p.demanded.Sheet, Sill: p.demanded.Sill, FallFlow: p.demanded.FallFlow})
	ways.Fall.Winter = fallInWinter(q.Winter)
	p.Apart = ways
	return nil
}

// fallInWinter is what the pump of the fall does: where the other is moved, the fall is off.
func fallInWinter(w *kit.Winter) *kit.Winter {
	if w == nil {
		return nil
	}
	fall := *w
	fall.Least, fall.Most = 0, 0
	if fall.Practice == kit.Moved {
		fall.Practice = kit.Stopped
	}
	return &fall
}

// Questions are what the brief asks of the range, with what every set holds.
func (p *Plan) Questions(b *pb.Brief, keep kit.Set) kit.Questions {
	return kit.Questions{One: p.Question, Apart: p.Apart, Pumps: pumpRules[b.GetWishes().GetTwoPumps()], Keep: keep}
}
