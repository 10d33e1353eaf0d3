package service

import (
	"fmt"

	"google.golang.org/protobuf/proto"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/server/internal/wire"
)

// A briefing is a request for kit: of a brief, or of a quick one.
type briefing interface {
	GetBrief() *pb.Brief
	GetQuickBrief() *pb.QuickBrief
}

// A counter is a brief made ready to be answered from what is for sale.
type counter struct {
	brief    *pb.Brief // as it is answered
	assumed  []finding.Finding
	plan     wire.Plan
	stall    *stall
	keep     kit.Set // what is owned
	set      named
	desk     *kit.Desk
	trail    *working.Trail
	pictures bool
}

// A named set is one that the asker names.
type named struct {
	kit.Set
	pumps kit.Arrangement
	fall  kit.Set
}

// newCounter works a brief out and makes the range ready. The set is nil where none is named.
func newCounter(snapshot *catalogue.Snapshot, req briefing, set *pb.ChosenSet, workings bool) (*counter, error) {
	c := &counter{brief: req.GetBrief(), trail: trail(workings), keep: kit.Free()}
	under := "brief"
	if q := req.GetQuickBrief(); q != nil {
		under = "quick_brief"
		c.brief, c.assumed = wire.QuickBrief(q)
	}
	var faults input.Errors
	currency, market, err := market(snapshot, c.brief.GetRunning().GetCurrency())
	if err != nil && !faults.AddUnder(under, err) {
		return nil, err
	}
	if market == nil {
		market = &catalogue.Market{} // to find the other faults
	}
	c.stall = newStall(snapshot, market, currency)
	c.own(&faults, under)
	if set != nil {
		c.choose(&faults, set)
	}
	c.plan, err = wire.PlanBrief(c.trail, c.brief)
	if err != nil && !faults.AddUnder(under, err) {
		return nil, err
	}
	if err := faults.Err(); err != nil {
		return nil, refused(err, "")
	}
	if c.set.pumps == kit.Apart && c.plan.Apart == nil {
		return nil, refused(input.Error{
			Field: "set.second_pump.fall", Problem: "the brief has no fall beside a filter or a turnover, so that there is nothing for a second pump",
			Change: "leave the second pump out, or give the fall",
		}, "")
	}
	c.desk, err = kit.NewDesk(c.plan.Questions(c.brief, c.keep), c.stall.Range)
	if err != nil {
		return nil, refused(err, under)
	}
	return c, nil
}

// kindNames are the kinds as the fields of Owned and ChosenSet are named.
var kindNames = [kit.Kinds]string{kit.PumpKind: "pump", kit.HoseKind: "hose", kit.FilterKind: "filter", kit.LampKind: "lamp_unit"}

// choices are the items of a message that has one field for each kind.
func choices(m interface {
	GetPump() *pb.ItemChoice
	GetHose() *pb.ItemChoice
	GetFilter() *pb.ItemChoice
	GetLampUnit() *pb.ItemChoice
}) [kit.Kinds]*pb.ItemChoice {
	return [kit.Kinds]*pb.ItemChoice{kit.PumpKind: m.GetPump(), kit.HoseKind: m.GetHose(), kit.FilterKind: m.GetFilter(), kit.LampKind: m.GetLampUnit()}
}

// own puts what is owned into the stall.
func (c *counter) own(faults *input.Errors, under string) {
	for k, choice := range choices(c.brief.GetOwned()) {
		if choice == nil {
			continue
		}
		place, err := c.stall.own(kit.Kind(k), choice)
		if err != nil {
			fault(faults, under+".owned."+kindNames[k], err)
			continue
		}
		c.keep = c.keep.Put(kit.Kind(k), place)
	}
}

// fault adds what is wrong with an item, whatever it is, under the field that names it.
func fault(faults *input.Errors, field string, err error) {
	if !faults.AddUnder(field, err) {
		faults.Add(field, "look its figures up again", "it cannot be calculated with: %v", err)
	}
}

// choose reads the set that is named. What is owned belongs to it. A filter or a lamp unit that it holds is judged though the brief
// does not ask for one.
func (c *counter) choose(faults *input.Errors, set *pb.ChosenSet) {
	c.set.Set = c.keep
	for k, choice := range choices(set) {
		if choice == nil {
			continue
		}
		if c.keep.Of(kit.Kind(k)) >= 0 {
			faults.Add("set."+kindNames[k], "leave it out here, or there", "the brief says that one is owned, and it belongs to the set")
			continue
		}
		c.set.Set = c.set.Put(kit.Kind(k), c.named(faults, "set."+kindNames[k], kit.Kind(k), choice))
	}
	for _, k := range []kit.Kind{kit.PumpKind, kit.HoseKind} {
		if c.set.Of(k) < 0 {
			faults.Add("set."+kindNames[k], "name one, or say in the brief that it is owned", "the set has no %s", k)
		}
	}
	switch second := set.GetSecondPump(); {
	case second.GetSideBySide():
		c.set.pumps = kit.SideBySide
	case second.GetFall() != nil:
		c.set.pumps, c.set.fall = kit.Apart, kit.Free()
		const at = "set.second_pump.fall."
		c.set.fall.Pump = c.named(faults, at+"pump", kit.PumpKind, second.GetFall().GetPump())
		c.set.fall.Hose = c.named(faults, at+"hose", kit.HoseKind, second.GetFall().GetHose())
	}
	c.brief = proto.CloneOf(c.brief)
	if c.brief.Wishes == nil {
		c.brief.Wishes = &pb.Wishes{}
	}
	if c.set.Filter >= 0 {
		c.brief.Wishes.Filter = pb.Want_WANT_YES
	}
	if c.set.Lamp >= 0 {
		c.brief.Wishes.LampUnit = pb.Want_WANT_YES
	}
}

func (c *counter) named(faults *input.Errors, field string, k kit.Kind, choice *pb.ItemChoice) int {
	place, err := c.stall.name(k, choice)
	if err != nil {
		fault(faults, field, err)
		return -1
	}
	if item := c.stall.at(k, place).GetItem(); k != kit.HoseKind && item.Price == nil {
		c.assumed = append(c.assumed, finding.Finding{
			Code: "PRICE_NOT_KNOWN", Severity: finding.Caution, Subject: k.String(), Source: source.Stated,
			Sentence: fmt.Sprintf("%q has no price: it is counted as costing nothing to buy.", item.GetItemNumber()),
			Change:   "give its price, or say in the brief that it is owned",
		})
	}
	return place
}

// findings are those about pond, fish and question.
func (c *counter) findings(more ...finding.Finding) []*pb.Finding {
	found := append(append([]finding.Finding(nil), c.assumed...), c.plan.Findings...)
	found = append(append(found, more...), cautions()...)
	if c.plan.Question.Lamp {
		found = append(found, lampCautions()...)
	}
	return wire.Findings(found)
}

// fish are the loads, of today and grown; nil where there are none.
func (c *counter) fish() (now, grown *pb.FishLoad) {
	if c.plan.Now.Count == 0 {
		return nil, nil
	}
	return wire.FishLoad(c.plan.Now), wire.FishLoad(c.plan.Grown)
}

// kit explains a candidate under a name for the workings.
func (c *counter) kit(candidate kit.Candidate, name string) (*pb.Kit, kit.Detail, error) {
	entry := func(k kit.Kind) *pb.CataloguedItem { return c.stall.at(k, candidate.Of(k)) }
	detail, fall, err := c.desk.Explain(c.trail, candidate, name)
	if err != nil {
		return nil, detail, fmt.Errorf("explain kit with pump %s: %w", entry(kit.PumpKind).GetItem().GetItemNumber(), err)
	}
	if candidate.Pumps == kit.Apart {
		detail.Findings = append(detail.Findings, c.plan.WayAssumed...)
	}
	made := wire.Kit(detail, c.desk.Question(candidate), c.stall.currency)
	made.Pump, made.Hose, made.Filter, made.LampUnit = entry(kit.PumpKind), entry(kit.HoseKind), entry(kit.FilterKind), entry(kit.LampKind)
	made.Owned = nil
	for k := range kit.Kinds {
		if place := c.keep.Of(k); place >= 0 && (candidate.Of(k) == place || candidate.Fall != nil && candidate.Fall.Of(k) == place) {
			made.Owned = append(made.Owned, wire.ItemKind(k))
		}
	}
	if err := c.second(made, candidate, fall); err != nil {
		return nil, detail, err
	}
	return made, detail, nil
}

// second fills in the second pump, and the pictures where they are asked for.
func (c *counter) second(made *pb.Kit, candidate kit.Candidate, fall *kit.Detail) error {
	if candidate.Pumps != kit.OnePump {
		made.SecondPump = &pb.SecondPump{Arrangement: wire.Arrangement(candidate.Pumps), Pump: made.GetPump()}
	}
	if fall != nil {
		second := made.SecondPump
		second.Pump, second.Hose = c.stall.at(kit.PumpKind, fall.Pump), c.stall.at(kit.HoseKind, fall.Hose)
		second.HoseLengthM, second.States = c.plan.Apart.Fall.Hose.Metres(), wire.States(*fall)
	}
	if !c.pictures {
		return nil
	}
	picture, fallPicture, err := c.desk.Picture(candidate)
	if err != nil {
		return err
	}
	made.Picture = wire.Picture(picture)
	if fallPicture != nil {
		made.SecondPump.Picture = wire.Picture(*fallPicture)
	}
	return nil
}

// losers explains sets that fall short.
func (c *counter) losers(lost []kit.Loser) ([]*pb.Loser, error) {
	trail := c.trail
	c.trail = nil // a set that is not bought needs no proof
	defer func() { c.trail = trail }()
	var made []*pb.Loser
	for _, l := range lost {
		k, detail, err := c.kit(l.Candidate, "loser")
		if err != nil {
			return nil, err
		}
		made = append(made, &pb.Loser{Kit: k, Stop: stop(l.Tightest, detail), Differs: wire.ItemKind(l.Differs)})
	}
	return made, nil
}

// stop is what there is to say of the limit that a set breaks by most.
func stop(tightest kit.Limit, d kit.Detail) *pb.Finding {
	if len(d.Broken) == 0 {
		return nil
	}
	for _, b := range d.Broken {
		if b.Limit == tightest {
			return wire.Finding(b.Finding)
		}
	}
	return wire.Finding(d.Broken[0].Finding)
}
