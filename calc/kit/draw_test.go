package kit

import (
	"fmt"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/water"
)

func drawQuestion(t *rapid.T) Question {
	q := Question{
		Volume: unit.Litres(rapid.Float64Range(500, 30000).Draw(t, "litres")), Stocking: filter.GoldfishPond,
		Water: water.At(nil, unit.Celsius(20)), Warmest: unit.Celsius(20), PH: 7.8, UV: unit.Percent(75),
		Lift: unit.Head(rapid.Float64Range(0, 2).Draw(t, "lift")), Hose: unit.Metres(rapid.Float64Range(2, 20).Draw(t, "hose")),
		Fittings: []pipe.Fitted{{Kind: pipe.Bend90, Count: 3}},
		Filter:   rapid.Bool().Draw(t, "filter"), Lamp: rapid.Bool().Draw(t, "lamp"),
		Margin: 0.25, RunsDaily: unit.Hours(rapid.SampledFrom([]float64{8, 24}).Draw(t, "hours")), Years: 5, Tolerance: pump.Usual(),
		Stock:  rapid.SampledFrom([]StockRule{AnyStock, AnyStock, AnyStock, InStock, NotKnownOut}).Draw(t, "stock"),
		Winter: drawWinter(t),
		Beside: rapid.IntRange(0, 3).Draw(t, "beside") == 0,
	}
	if rapid.Bool().Draw(t, "tariff") {
		q.Tariff = 0.3
	}
	if rapid.IntRange(0, 2).Draw(t, "budget") == 0 {
		q.Budget = rapid.Float64Range(100, 2500).Draw(t, "most")
	}
	if rapid.IntRange(0, 5).Draw(t, "one wall") == 0 {
		q.Wall = pipe.Smooth
	}
	q.Load = stock.Load{TAN: unit.GramsPerDay(rapid.Float64Range(0, 1.5).Draw(t, "ammonia"))}
	least := rapid.Float64Range(200, 5000).Draw(t, "least")
	q.Wanted = Wanted{Least: unit.LitresPerHour(least)}
	if rapid.IntRange(0, 4).Draw(t, "unlimited") > 0 {
		q.Wanted.Most = unit.LitresPerHour(least * rapid.Float64Range(1.5, 4).Draw(t, "span"))
	}
	return q
}

func drawWinter(t *rapid.T) *Winter {
	practice := WinterPractice(rapid.IntRange(-2, int(Stopped)).Draw(t, "winter"))
	if practice < RunsOn {
		return nil
	}
	w := &Winter{Practice: practice, Days: rapid.Float64Range(30, 180).Draw(t, "days"), Water: water.At(nil, unit.Celsius(4))}
	if w.moved() {
		w.Hose = unit.Metres(rapid.Float64Range(1, 10).Draw(t, "winter hose"))
		w.Lift = unit.Head(rapid.Float64Range(0, 0.5).Draw(t, "winter lift"))
		w.Filter, w.Lamp = rapid.Bool().Draw(t, "winter filter"), rapid.Bool().Draw(t, "winter lamp")
	}
	if w.runs() && rapid.Bool().Draw(t, "winter flow") {
		w.Least, w.Most = unit.LitresPerHour(500), unit.LitresPerHour(9000)
	}
	return w
}

func drawStock(t *rapid.T) Stock {
	return Stock{
		Known: rapid.Bool().Draw(t, "counted"), Count: rapid.IntRange(0, 3).Draw(t, "count") * 12,
		Owned: rapid.IntRange(0, 9).Draw(t, "owned") == 0,
	}
}

// price is round, so that prices often are the same.
func price(t *rapid.T, about float64) float64 {
	return float64(int(about/20))*20 + float64(rapid.IntRange(0, 1).Draw(t, "dearer"))
}

func drawRange(t *rapid.T) Range {
	var r Range
	for range rapid.IntRange(0, 10).Draw(t, "pumps") {
		r.Pumps = append(r.Pumps, drawPump(t))
	}
	for range rapid.IntRange(0, 4).Draw(t, "hoses") {
		bore := rapid.SampledFrom([]float64{20, 25, 32, 40, 50, 63}).Draw(t, "bore")
		wall := rapid.SampledFrom([]pipe.Wall{pipe.Smooth, pipe.Corrugated}).Draw(t, "wall")
		r.Hoses = append(r.Hoses, Hose{Bore: unit.Millimetres(bore), Wall: wall, PricePerMetre: rapid.SampledFrom([]float64{2, 2, 3}).Draw(t, "per metre"), Stock: drawStock(t)})
	}
	for range rapid.IntRange(0, 5).Draw(t, "filters") {
		r.Filters = append(r.Filters, drawFilter(t))
	}
	for range rapid.IntRange(0, 5).Draw(t, "lamps") {
		r.Lamps = append(r.Lamps, drawLamp(t))
	}
	if rapid.IntRange(0, 3).Draw(t, "twice") == 0 { // the same items again, at the same prices
		r.Pumps, r.Hoses = append(r.Pumps, r.Pumps...), append(r.Hoses, r.Hoses...)
		r.Filters, r.Lamps = append(r.Filters, r.Filters...), append(r.Lamps, r.Lamps...)
	}
	return r
}

func drawPump(t *rapid.T) Pump {
	q := rapid.Float64Range(1000, 12000).Draw(t, "free flow")
	shutOff := rapid.Float64Range(1, 5).Draw(t, "shut-off")
	p := Pump{Price: price(t, 50+q/50), Stock: drawStock(t)}
	switch rapid.IntRange(0, 3).Draw(t, "curve") {
	case 0:
		p.Curve = drawn(t, q, shutOff, unit.Watts(float64(int(q/1000))*20+10), 0)
	case 1:
		p.Curve = drawn(t, q, shutOff, 0, 0.06)
	default:
		p.Curve = curve(t, q, shutOff)
	}
	return p
}

func drawFilter(t *rapid.T) Filter {
	area := rapid.Float64Range(1, 60).Draw(t, "surface")
	item := Filter{
		Filter:  filter.Filter{Medium: filter.Foam, Surface: unit.SquareMetres(area)},
		MaxFlow: unit.LitresPerHour(2000 + 300*area), Price: price(t, 20*area), Stock: drawStock(t),
	}
	if item.Open = rapid.Bool().Draw(t, "open"); item.Open {
		item.InletAboveOutlet = unit.Metres(0.2)
		return item
	}
	at := unit.LitresPerHour(rapid.Float64Range(2000, 6000).Draw(t, "loss at"))
	item.Clean = circuit.Device{Name: "filter", At: at, Loss: 0.3}
	item.Due = circuit.Device{Name: "filter", At: at, Loss: 0.9}
	return item
}

func drawLamp(t *rapid.T) Lamp {
	watts := float64(rapid.IntRange(5, 80).Draw(t, "watts"))
	return Lamp{
		Unit: uv.Unit{
			WallPower: unit.Watts(watts), Lamps: 1, Kind: uv.LowPressure, Output254: unit.Watts(watts / 4),
			ArcLength: unit.Millimetres(12 * watts), SleeveDiameter: unit.Millimetres(28),
			ChamberDiameter: unit.Millimetres(90), ChamberLength: unit.Millimetres(14 * watts),
		},
		Loss: circuit.Device{Name: "lamp unit", At: unit.LitresPerHour(4000), Loss: 0.2}, MaxFlow: unit.LitresPerHour(200 * watts),
		Life: unit.Hours(9000), Price: price(t, 40+3*watts), LampPrice: rapid.SampledFrom([]float64{0, 20}).Draw(t, "lamp price"), Stock: drawStock(t),
	}
}

// curve is a falling curve from shut-off to free flow, with power.
func curve(t require.TestingT, freeLitresPerHour, shutOff float64) *pump.Curve {
	return drawn(t, freeLitresPerHour, shutOff, 0, 0)
}

// drawn is a curve with a power of its own at each point unless it has a constant one, and with a droop.
func drawn(t require.TestingT, freeLitresPerHour, shutOff float64, constant unit.Power, droop float64) *pump.Curve {
	points := make([]pump.Point, 6)
	for i := range points {
		u := float64(i) / 5
		points[i] = pump.Point{Flow: unit.LitresPerHour(u * freeLitresPerHour), Head: unit.Head(shutOff * (1 - u*u))}
		if constant == 0 {
			load := 1 + u
			if droop > 0 { // some take less the more they give
				load = 2 - u
			}
			points[i].Power = unit.Watts(10 + freeLitresPerHour*shutOff/200*load)
		}
	}
	points[0].Head *= unit.Head(1 - droop)
	made, err := pump.NewCurve(points, constant)
	require.NoError(t, err, fmt.Sprint(points))
	return made
}
