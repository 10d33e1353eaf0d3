package season

import (
	"encoding/json"
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/ode"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/winter"
)

func alike(date int, least, most, vapour, wind, sunshine float64) climate.Day {
	return climate.Day{
		Date: date, Least: unit.Celsius(least), Most: unit.Celsius(most), Vapour: unit.Kilopascals(vapour), Wind: unit.MetresPerSecond(wind), Sunshine: unit.Hours(sunshine),
	}
}

func still(depth float64) follower {
	return follower{in: Input{Shape: Upright(unit.CubicMetres(10*depth), 10), Allowance: 0.4}}
}

// The same equations by scipy (DOP853 at 1e-10), written from the equations alone: days that are all alike, until the pond
// repeats itself. A step here is good to a ten-thousandth of a degree, and what it errs is forgotten in days; highest and lowest
// are looked for at the ends and middles of steps, which may miss a flat top by some thousandths.
func TestDaysAgainstScipy(t *testing.T) {
	for _, c := range []struct {
		depth, latitude, altitude, shade float64
		day                              climate.Day
	}{
		{1, 50, 100, 0, alike(187, 12, 24, 1.4, 3, 9)},
		{0.3, 50, 100, 0.3, alike(187, 12, 24, 1.4, 3, 9)},
		{1.6, -35, 40, 0, alike(15, 16, 29, 1.31, 2.6, 10)},
		{0.8, 47, 150, 0, alike(288, 7, 15, 1.04, 1.7, 4.7)},
	} {
		site := climate.Site{Latitude: unit.Degrees(c.latitude), Altitude: unit.Metres(c.altitude), WindHeight: 10, WindShare: 1, Shade: unit.Ratio(c.shade)}
		sky := site.Under(nil, c.day)
		f := still(c.depth)
		s := state{heat: max(1, sky.Mean.Celsius())}
		var last Day
		const days = 25
		for range days {
			last = Day{}
			require.NoError(t, f.follow(&s, sky, &last))
		}
		in, err := json.Marshal(map[string]any{
			"date": c.day.Date, "least": c.day.Least, "most": c.day.Most, "vapour": c.day.Vapour.Kilopascals(), "wind": c.day.Wind, "height": 10,
			"latitude": c.latitude, "altitude": c.altitude, "shade": c.shade, "sunshine": c.day.Sunshine.Hours(), "depth": c.depth, "days": days,
		})
		require.NoError(t, err)
		var want struct{ Mean, Least, Most, Dusk float64 }
		require.NoError(t, json.Unmarshal(reftest.Python(t, "season.py", in), &want))
		assert.InDelta(t, want.Mean, last.Mean.Celsius(), 5e-4)
		assert.InDelta(t, want.Dusk, last.Dusk.Celsius(), 5e-4)
		assert.InDelta(t, want.Least, last.Least.Celsius(), 0.02)
		assert.InDelta(t, want.Most, last.Most.Celsius(), 0.02)
	}
}

// At the air's own temperature the heat that water takes up is what FAO-56 and Penman's drying power leave: net radiation less
// latent heat of E_a. And from there on a straight curve gives Penman's equation: the water warms until nothing is left over.
func TestWaterHeatIsPenmansStartingPoint(t *testing.T) {
	site := climate.Site{Latitude: unit.Degrees(50.8), Altitude: 100, WindHeight: 10, WindShare: 1}
	sky := site.Under(nil, alike(187, 16.9, 16.9, 1.409, 2.78, 9.25)) // FAO-56, example 18, but for the swing
	in := HeatInput{
		Water: sky.Mean, Air: sky.Mean, MeanAir: sky.Mean, Kept: sky.Kept, Long: sky.Long, Vapour: sky.Day.Vapour, Wind: sky.Wind, Psychrometric: sky.Psychrometric,
	}
	dries := climate.Drying.Eval(climate.DryingInput{Wind: sky.Wind, Saturation: sky.Saturation, Vapour: sky.Day.Vapour, Latent: sky.Latent})
	latent := 1000 * float64(dries) * float64(sky.Latent)
	start := float64(WaterHeat.Eval(in))
	assert.InDelta(t, float64(sky.Net)-latent, start, 1e-9)

	h, slope, gamma := drying(sky.Wind)/1000, float64(sky.Slope), float64(sky.Psychrometric)
	warmer := start / (h * (slope + gamma))
	evaporates := (latent + h*slope*warmer) / (1000 * float64(sky.Latent))
	assert.InEpsilon(t, float64(sky.Penman), evaporates, 1e-12)
	// The slope of the loss at hand, but for the curve over a hundredth of a degree, is that of vapour, air and sky together.
	in.Water += 0.01
	k := sky.Mean.Celsius() + 273.15
	assert.InEpsilon(t, h*(slope+gamma)+4*emissivity*boltzmann*k*k*k, (start-float64(WaterHeat.Eval(in)))/0.01, 1e-3)
}

// Ice on a pond that loses heat steadily has a closed form (Ashton 1989, from memory): h = √(b² + 2 k ΔT t/(ρ L)) − b with
// b = k/G and ΔT = −q0/G. With a strong exchange it is Stefan's law, package winter.
func TestIceAgainstClosedForm(t *testing.T) {
	site := climate.Site{Latitude: unit.Degrees(50), WindHeight: 2, WindShare: 1}
	for _, wind := range []float64{0.5, 4, 50} {
		none := unit.HeatFlux(0)
		day := alike(15, -6, -6, 0.3, wind, 0)
		day.Radiation = &none
		sky := site.Under(nil, day)
		f := still(1.5)
		s := state{heat: 1e-12}
		const days = 40
		for range days {
			var d Day
			require.NoError(t, f.follow(&s, sky, &d))
		}
		a := over(sky)
		bare, _ := a.heat(0, -6, 0)
		require.Negative(t, bare)
		b := iceConducts / a.exchange
		want := math.Sqrt(b*b+2*iceConducts*(-bare/a.exchange)*days*secondsOfDay/(iceDensity*iceMelting)) - b
		got := IceFromCold.Eval(ColdInput{Missing: -s.heat, Pond: f.in.Shape.Full(), Surface: f.in.Shape.Surface()}).Metres()
		assert.InEpsilon(t, want, got, 1e-4)
		through := ThroughIce.Eval(IceHeatInput{Bare: unit.HeatFlux(bare), Exchange: a.exchange, Thickness: unit.Length(got)})
		assert.InEpsilon(t, bare/(1+got/b), through.WattsPerSquareMetre(), 1e-12)
		assert.Equal(t, unit.HeatFlux(7), ThroughIce.Eval(IceHeatInput{Bare: 7, Exchange: 20, Thickness: 1}))

		surface := -bare / a.exchange // how much colder than the water a bare surface would settle
		stefan := winter.IceThickness.Eval(winter.IceInput{FreezingDays: surface * days, Cover: winter.BareIce}).Metres()
		assert.Less(t, got, stefan)
		if wind == 50 {
			assert.InEpsilon(t, stefan, got, 0.05)
		}
	}
}

// What freezes needs the same heat to melt: an exchange there and back leaves none over.
func TestMeltingGivesBackWhatFreezingTook(t *testing.T) {
	f := still(1)
	f.air = air{exchange: 20}
	f.capacity, f.ice = waterHeat*1, waterHeat*1/(iceDensity*iceMelting)
	ice := IceFromCold.Eval(ColdInput{Missing: 8, Pond: 10, Surface: 10})
	assert.InEpsilon(t, 8*waterHeat/(iceDensity*iceMelting), ice.Metres(), 1e-12) // a metre of water, by hand: 109 mm
	assert.InDelta(t, 0.109, ice.Metres(), 0.0005)
}

func TestSharedHours(t *testing.T) {
	w := func(from, to float64) Window { return Window{From: unit.Hours(from), To: unit.Hours(to)} }
	for _, c := range []struct {
		a, b Window
		want float64
	}{
		{w(0, 24), w(7, 23), 16}, {w(0, 0), w(23, 7), 8}, {w(22, 6), w(23, 7), 7}, {w(8, 20), w(20, 8), 0}, {w(8, 20), w(6, 9), 1}, {w(5, 5), w(0, 24), 24},
	} {
		assert.InDelta(t, c.want, shared(c.a, c.b), 1e-12)
		assert.InDelta(t, c.want, shared(c.b, c.a), 1e-12)
	}
}

func TestLongestRunGoesOverTheTurnOfTheYear(t *testing.T) {
	run := func(pattern string) *Span {
		days := make([]Day, len(pattern))
		for i, c := range pattern {
			days[i].Lamp = c == 'x'
		}
		return longest(days, func(d *Day) bool { return d.Lamp })
	}
	assert.Nil(t, run("...."))
	assert.Equal(t, &Span{0, 3, 4}, run("xxxx"))
	assert.Equal(t, &Span{6, 1, 4}, run("xx.x..xx"))
	assert.Equal(t, &Span{1, 2, 2}, run(".xx.x"))
	assert.Equal(t, &Span{0, 1, 2}, run("xx.x."))
}

// A year, and beside it the hot loop's arithmetic alone, evaluated as often as the year evaluates it: what no simulation of this
// air can be faster than. Step control, skies and sums make it some three times as much; the aim is a year in 5 ms.
func BenchmarkYear(b *testing.B) {
	site := climate.Site{Latitude: unit.Degrees(47), Altitude: 150, WindHeight: 2, WindShare: 1}
	in := Input{Site: site, Shape: Upright(20, 20), Allowance: unit.Millimetres(50), Overflow: unit.Millimetres(20), Tap: 10}
	for d := range climate.YearDays {
		w := -math.Cos(2 * math.Pi * float64(d-15) / climate.YearDays)
		in.Days = append(in.Days, alike(d+1, 6+9*w, 13+12*w, 1+0.6*w, 2, 5.5+3.5*w))
	}
	f := follower{in: in}
	evaluations := 0
	for _, day := range in.Days {
		sky := site.Under(nil, day)
		s, d := state{heat: max(1, sky.Mean.Celsius())}, Day{}
		f.begin(&s, sky, &d)
		y := [degrees]float64{heat: s.heat}
		counted := func(t float64, y, dy []float64) { evaluations++; f.rates(t, y, dy) }
		for _, span := range [3][2]float64{{0, f.air.rise}, {f.air.rise, f.air.set}, {f.air.set, secondsOfDay}} {
			require.NoError(b, ode.Solve(counted, y[:], span[0], span[1], tolerance, nil))
		}
	}
	evaluations += evaluations * 60 / climate.YearDays // the weeks before the first day of a pond a metre deep
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Simulate(nil, in); err != nil {
			b.Fatal(err)
		}
	}
	year := b.Elapsed().Seconds() / float64(b.N)
	var y, dy [degrees]float64
	y[heat] = 20
	const rounds = 10
	start := time.Now()
	for i := range rounds * evaluations {
		f.rates(float64(i%86400), y[:], dy[:])
	}
	bare := time.Since(start).Seconds() / rounds
	b.ReportMetric(1000*bare, "ms-bare")
	b.ReportMetric(year/bare, "times-bare")
}

func TestSplashIsHabit(t *testing.T) {
	// Common practice, no source: 1 to 10 L a day for each metre of fall.
	got := Splash.Eval(SplashInput{Drop: 1}).LitresPerDay()
	assert.InDelta(t, SplashPerMetre, got, 1e-9)
	assert.Greater(t, got, 1.0)
	assert.Less(t, got, 10.0)
	assert.Equal(t, source.CommonPractice, Splash.Describe().Source.Status)
}
