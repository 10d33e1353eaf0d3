package service

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// A costList is costs on their way to an answer.
type costList struct {
	made *pb.PlannedCosts
}

// add puts a line in. Without a price it costs nothing that is known, and is named.
func (c costList) add(group, name string, quantity float64, unit string, price *float64, yearly bool) {
	if quantity == 0 {
		return
	}
	line := &pb.CostLine{Group: group, Name: name, Quantity: quantity, Unit: unit, UnitPrice: price, Yearly: yearly}
	c.made.Lines = append(c.made.Lines, line)
	if price == nil {
		c.made.WithoutPrice = append(c.made.WithoutPrice, name)
		return
	}
	line.Cost = new(quantity * *price)
	if yearly {
		c.made.YearlyTotal += *line.Cost
	} else {
		c.made.BuildTotal += *line.Cost
	}
}

// costs adds up what has a price.
func (p *jobPlan) costs() error {
	if err := p.need(
		pb.PlanPart_PLAN_PART_QUANTITIES, pb.PlanPart_PLAN_PART_KIT, pb.PlanPart_PLAN_PART_YEAR, pb.PlanPart_PLAN_PART_FILL, pb.PlanPart_PLAN_PART_WORK,
		pb.PlanPart_PLAN_PART_ELECTRICS,
	); err != nil {
		return err
	}
	if p.made.Quantities == nil || p.made.Work == nil || p.made.Fill == nil {
		return nil
	}
	k := p.made.GetKit().GetKit()
	prices := p.job.GetPrices()
	if prices == nil {
		prices = &pb.JobPrices{}
	}
	c := costList{made: &pb.PlannedCosts{Currency: p.currency(k)}}
	if k != nil {
		c.add("kit", "kit", 1, "set", new(k.GetCost().GetPrice()), false)
	}
	p.materialCosts(c, prices)
	p.labourCosts(c, prices)
	p.runningCosts(c, k)
	for _, x := range prices.GetExtra() {
		c.add("other", x.GetName(), 1, "", new(x.GetCost()), x.GetYearly())
	}
	var notes wire.Notes
	if n := len(c.made.GetWithoutPrice()); n > 0 {
		notes.Add(finding.Finding{
			Code: "NOT_PRICED", Severity: finding.Caution, Subject: "cost",
			Sentence: "Some of it has no price and is in no total: " + listed(c.made.GetWithoutPrice()) + ".", Value: finding.Of(float64(n), "lines"),
			Change: "give its price in prices", Source: source.Asked,
		})
	}
	notes.Add(finding.Finding{
		Code: "TAX_AS_GIVEN", Severity: finding.Note, Subject: "cost", Sentence: "Prices are as they were given: with or without tax, all alike or not, nobody has looked.",
		Change: "give all of them one way", Source: source.Asked,
	})
	c.made.Findings = wire.Findings(notes.Findings)
	p.made.Costs = c.made
	return nil
}

func listed(names []string) string {
	text := ""
	for i, n := range names {
		switch {
		case i == 0:
		case i == len(names)-1:
			text += " and "
		default:
			text += ", "
		}
		text += n
	}
	return text
}

func (p *jobPlan) currency(k *pb.Kit) string {
	if c := k.GetCost().GetCurrency(); c != "" {
		return c
	}
	return p.job.GetBrief().GetRunning().GetCurrency()
}

// materialCosts are those of what is bought, by the quantity lines.
func (p *jobPlan) materialCosts(c costList, prices *pb.JobPrices) {
	for _, q := range p.made.Quantities.GetLines() {
		switch q.GetLine() {
		case "lining", "stream_lining":
			c.add("material", q.GetName(), q.GetQuantity(), q.GetUnit(), p.liningPrice(prices, p.job.GetLining()), false)
		case "underlay":
			c.add("material", q.GetName(), q.GetQuantity(), q.GetUnit(), p.underlayPrice(prices), false)
		case "edging", "bed", "fall_wall":
			c.add("material", q.GetName(), q.GetQuantity(), q.GetUnit(), prices.StonePerT, false)
		case "mortar_bags":
			c.add("material", q.GetName(), q.GetQuantity(), q.GetUnit(), prices.MortarPerBag, false)
		}
	}
	if f := p.made.Quantities.GetStone().GetFall(); f != nil {
		c.add("material", "spill stones", float64(f.GetSpillStones())*f.GetSpillMassKg()/1000, "t", prices.StonePerT, false)
	}
	if loads := p.made.Quantities.GetDig().GetLoads(); len(loads) > 0 && p.carted() {
		c.add("spoil", "spoil, "+loads[0].GetVehicle(), float64(loads[0].GetLoads()), "loads", prices.SpoilPerLoad, false)
	}
	c.add("water", "water to fill it", p.made.Fill.GetVolumeL()/1000, "m³", p.waterPrice(), false)
}

func (p *jobPlan) waterPrice() *float64 {
	switch s := p.job.GetSupply(); {
	case s.GetIsRainOrWell():
		return new(0.0)
	case s == nil:
		return nil
	default:
		return s.PricePerM3
	}
}

// labourCosts are those of people and machines.
func (p *jobPlan) labourCosts(c costList, prices *pb.JobPrices) {
	hours, digger := 0.0, 0.0
	daily := 7.0
	if w := p.job.GetWork(); w != nil && w.HoursPerDay != nil {
		daily = w.GetHoursPerDay()
	}
	for _, t := range p.made.Work.GetTasks() {
		switch {
		case t.GetTask() == "mains":
		case t.GetTask() == "dig" && p.machineDigs():
			digger += t.GetWorkH() / daily
		default:
			hours += t.GetWorkH()
		}
	}
	c.add("labour", "labour", hours, "h", prices.LabourPerH, false)
	c.add("labour", "digger with driver", digger, "days", prices.DiggerPerDay, false)
	if p.made.GetKit().GetKit() != nil {
		c.add("labour", "electrician", 1, "", prices.Electrician, false)
	}
}

// machineDigs reports whether a machine digs the hole.
func (p *jobPlan) machineDigs() bool {
	var quiet wire.Notes
	return quiet.Digger(p.job.GetWork(), p.made.Quantities.GetDig().GetTotalM3()).Machine
}

// runningCosts are those of every year: as it was followed, or by the months, or else as if all of it ran all year.
func (p *jobPlan) runningCosts(c costList, k *pb.Kit) {
	if k.GetLampUnit() != nil {
		c.add("running", "new lamps", 1, "", k.GetCost().LampCostPerYear, true)
	}
	if s := p.made.GetYear().GetSeason(); s != nil {
		for _, load := range s.GetEnergy().GetLoads() {
			c.add("running", "electricity of "+load.GetName(), load.GetKwh(), "kWh", p.energyPrice(), true)
		}
		return
	}
	own := 0
	if k != nil {
		name, energy := "electricity of the pump", k.GetCost().GetEnergyKwhPerYear()
		if own++; k.GetLampUnit() != nil {
			name = "electricity of pump and lamp unit"
			own++
		}
		if fallPumpPower(k) > 0 {
			own++
		}
		if len(p.made.GetYear().GetMonths()) > 0 {
			energy = p.made.GetYear().GetEnergyKwhPerYear()
		}
		c.add("running", name, energy, "kWh", p.energyPrice(), true)
	}
	for i, load := range p.made.GetElectrics().GetLoads() {
		if i >= own {
			c.add("running", "electricity of "+load.GetName(), load.GetEnergyKwhPerYear(), "kWh", p.energyPrice(), true)
		}
	}
}

// liningPrice is as told, or the least dear of the catalogues of the same material and thickness, in the kit's currency.
func (p *jobPlan) liningPrice(prices *pb.JobPrices, l *pb.JobLining) *float64 {
	if prices.LiningPerM2 != nil {
		return prices.LiningPerM2
	}
	thick := 1.0
	if l != nil && l.ThicknessMm != nil {
		thick = l.GetThicknessMm()
	}
	return p.cheapest(func(i *eq.Liner) bool {
		return wire.SameLining(l.GetMaterial(), i.GetMaterial()) && i.GetThicknessMm() == thick
	})
}

func (p *jobPlan) underlayPrice(prices *pb.JobPrices) *float64 {
	if prices.UnderlayPerM2 != nil {
		return prices.UnderlayPerM2
	}
	return p.cheapest(func(i *eq.Liner) bool { return i.GetMaterial() == eq.LinerMaterial_LINER_MATERIAL_UNDERLAY })
}

// cheapest is the least price of a square metre of what the catalogues hold.
func (p *jobPlan) cheapest(is func(*eq.Liner) bool) *float64 {
	var least *float64
	for _, item := range p.known.Items {
		l := item.GetItem().GetLiner()
		if l == nil || !is(l) || p.known.Currency(item.GetCatalogue()) != p.currency(p.made.GetKit().GetKit()) {
			continue
		}
		if price := l.GetPricePerM2(); least == nil || price < *least {
			least = &price
		}
	}
	return least
}
