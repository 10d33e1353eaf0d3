package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/electric"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A LoadItem is a load and how long it runs.
type LoadItem struct {
	electric.Load
	Daily unit.Time
	Vital bool // fish depend on it
}

// Supply reads the supply of a job; the loads of the kit come first.
func (n *Notes) Supply(p *pb.PowerSupply, kit []LoadItem) (electric.Supply, []LoadItem) {
	if p == nil {
		p = &pb.PowerSupply{}
	}
	s := electric.Supply{
		Length: unit.Metres(p.GetCableM()), MM2: p.GetConductorMm2(),
		Voltage: assumed(n, optional(p.VoltageV, unit.Volts), electric.UsualVoltage, assume.Note("electrics", "The voltage", electric.UsualVoltage.Volts(), "V", "say so, above all where it is 120 V or 12 V")),
		Limit:   assumed(n, optional(p.DropLimitPercent, unit.Percent), electric.UsualDropLimit, assume.Note("electrics", "How much of the voltage may be lost", electric.UsualDropLimit.Percent(), "%", "ask the electrician: some rules say 3 %")),
	}
	factor := assumed(n, optional(p.PowerFactor, func(f float64) unit.Ratio { return unit.Ratio(f) }), electric.MotorFactor,
		assume.Note("electrics", "The power factor of the pump", electric.MotorFactor.Float(), "", "read it off a plug-in meter"))
	items := make([]LoadItem, 0, len(kit)+len(p.GetOthers()))
	for _, k := range kit {
		k.Factor = factor
		items = append(items, k)
	}
	for _, o := range p.GetOthers() {
		item := LoadItem{Load: electric.Load{Name: o.GetName(), Power: unit.Watts(o.GetPowerW()), Factor: 1}, Daily: unit.Hours(24)}
		if o.PowerFactor != nil {
			item.Factor = unit.Ratio(o.GetPowerFactor())
		}
		if o.HoursPerDay != nil {
			item.Daily = unit.Hours(o.GetHoursPerDay())
		}
		items = append(items, item)
	}
	for _, i := range items {
		s.Loads = append(s.Loads, i.Load)
	}
	return s, items
}

// WiringRegion reads where the pond is.
func WiringRegion(p *pb.PowerSupply) electric.Region {
	return map[pb.WiringRegion]electric.Region{
		pb.WiringRegion_WIRING_REGION_UK_AND_IRELAND: electric.UK, pb.WiringRegion_WIRING_REGION_EUROPE: electric.Europe,
		pb.WiringRegion_WIRING_REGION_NORTH_AMERICA: electric.America, pb.WiringRegion_WIRING_REGION_AUSTRALIA_AND_NEW_ZEALAND: electric.Australia,
	}[p.GetRegion()]
}

// Electrics turns an assessed supply into a message, without its findings.
func Electrics(s electric.Supply, items []LoadItem, a electric.Assessed) *pb.PlannedElectrics {
	made := &pb.PlannedElectrics{
		PowerW: a.Power.Watts(), CurrentA: a.Current.Amperes(), ConductorMm2: given(a.Chosen), DropLimitPercent: s.Limit.Percent(), VoltageV: s.Voltage.Volts(),
	}
	const days = 365
	for i, item := range items {
		made.Loads = append(made.Loads, &pb.LoadLine{
			Name: item.Name, PowerW: item.Power.Watts(), PowerFactor: item.Factor.Float(), CurrentA: a.Currents[i].Amperes(), HoursPerDay: item.Daily.Hours(),
			EnergyKwhPerYear: item.Power.Over(item.Daily * days).KilowattHours(), KeepsFishAlive: item.Vital,
		})
	}
	for _, d := range a.Drops {
		made.Cables = append(made.Cables, &pb.CableDrop{
			ConductorMm2: d.MM2, DropV: d.Voltage.Volts(), DropPercent: d.Share.Percent(),
			TableDropV: given(d.Table.Volts()), TableDropPercent: given(d.TableShare.Percent()), WithinLimit: d.Within,
		})
	}
	return made
}
