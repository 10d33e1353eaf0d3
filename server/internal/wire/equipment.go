package wire

import (
	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Curve reads a pump's curve.
func Curve(p *eq.Pump) (*pump.Curve, error) {
	points := make([]pump.Point, len(p.GetCurve()))
	for i, c := range p.GetCurve() {
		points[i] = pump.Point{
			Flow: unit.LitresPerHour(c.GetFlowLPerH()), Head: unit.MetresOfWater(c.GetHeadM()), Power: unit.Watts(c.GetPowerW()),
		}
	}
	return pump.NewCurve(points, unit.Watts(p.GetPowerW()))
}

// Stock reads how many of an item a catalogue counts.
func Stock(item *eq.Item) kit.Stock {
	return kit.Stock{Known: item.InStock != nil, Count: int(item.GetInStock())}
}

// Pump reads a pump of a range.
func Pump(p *eq.Pump, price float64) (kit.Pump, error) {
	curve, err := Curve(p)
	if err != nil {
		return kit.Pump{}, err
	}
	return kit.Pump{
		Curve: curve, Price: price, LabelFlow: unit.LitresPerHour(p.GetLabelFlowLPerH()), Solids: unit.Millimetres(p.GetSolidsMm()),
		Outlet: unit.Millimetres(p.GetOutletBoreMm()),
	}, nil
}

var walls = map[eq.HoseWall]pipe.Wall{
	eq.HoseWall_HOSE_WALL_SMOOTH:     pipe.Smooth,
	eq.HoseWall_HOSE_WALL_CORRUGATED: pipe.Corrugated,
}

// Wall reads the inside of a hose; 0 where any is meant.
func Wall(w eq.HoseWall) pipe.Wall { return walls[w] }

// Hose reads a hose of a range.
func Hose(h *eq.Hose) kit.Hose {
	return kit.Hose{
		Bore: unit.Millimetres(h.GetBoreMm()), TailBore: unit.Millimetres(h.GetTailBoreMm()),
		Wall: walls[h.GetWall()], PricePerMetre: h.GetPricePerM(),
	}
}

var media = map[eq.FilterMedium]filter.Medium{
	eq.FilterMedium_FILTER_MEDIUM_FOAM:            filter.Foam,
	eq.FilterMedium_FILTER_MEDIUM_MATTING:         filter.Matting,
	eq.FilterMedium_FILTER_MEDIUM_MOVING_CARRIERS: filter.MovingCarrier,
	eq.FilterMedium_FILTER_MEDIUM_TRICKLING:       filter.Trickling,
	eq.FilterMedium_FILTER_MEDIUM_FLOATING_BEADS:  filter.FloatingBead,
	eq.FilterMedium_FILTER_MEDIUM_GRANULAR:        filter.Granular,
}

// Medium reads a filter by what is in it.
func Medium(f *eq.Filter) filter.Filter {
	volume := unit.Litres(f.GetMediumL())
	return filter.Filter{
		Medium: media[f.GetMedium()], MediaVolume: volume,
		Surface: unit.SquareMetres(volume.CubicMetres() * f.GetSpecificSurfaceM2PerM3()),
	}
}

// Filter reads a filter of a range.
func Filter(f *eq.Filter, price float64) kit.Filter {
	return kit.Filter{
		Filter: Medium(f), Open: f.GetBody() == eq.FilterBody_FILTER_BODY_OPEN,
		Clean: Device("filter", f.GetCleanLoss()), Due: Device("filter", f.GetDueLoss()),
		InletAboveOutlet: unit.Metres(f.GetInletAboveOutletM()),
		MaxFlow:          unit.LitresPerHour(f.GetMaxFlowLPerH()), LabelPond: unit.Litres(f.GetLabelPondL()), Price: price,
	}
}

// Device reads a loss that was measured at one flow.
func Device(name string, l *eq.LossPoint) circuit.Device {
	return circuit.Device{Name: name, At: unit.LitresPerHour(l.GetFlowLPerH()), Loss: unit.MetresOfWater(l.GetHeadM())}
}

var lampKinds = map[eq.LampKind]uv.LampKind{
	eq.LampKind_LAMP_KIND_LOW_PRESSURE: uv.LowPressure,
	eq.LampKind_LAMP_KIND_AMALGAM:      uv.Amalgam,
}

// LampUnit reads a lamp unit as its light is worked out.
func LampUnit(l *eq.LampUnit) uv.Unit {
	return uv.Unit{
		WallPower: unit.Watts(l.GetPowerW()), Lamps: int(l.GetLampCount()), Kind: lampKinds[l.GetLamp()],
		Output254: unit.Watts(l.GetOutput_254NmW()), ArcLength: unit.Millimetres(l.GetArcLengthMm()),
		SleeveDiameter: unit.Millimetres(l.GetSleeveDiameterMm()), ChamberDiameter: unit.Millimetres(l.GetChamberDiameterMm()),
		ChamberLength: unit.Millimetres(l.GetChamberLengthMm()),
	}
}

// Lamp reads a lamp unit of a range.
func Lamp(l *eq.LampUnit, price float64) kit.Lamp {
	return kit.Lamp{
		Unit: LampUnit(l), Loss: Device("lamp unit", l.GetLoss()), MaxFlow: unit.LitresPerHour(l.GetMaxFlowLPerH()),
		Life: unit.Hours(l.GetLifeH()), Price: price, LampPrice: l.GetLampPrice(),
	}
}
