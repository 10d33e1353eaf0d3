package uv_test

import (
	"fmt"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
)

// An invented unit of 36 W at the end of its lamp's life, on 10 m³ of pond. One pass is far below what kills green
// algae; the day's dose is what is held against published work.
func ExampleDoseAt() {
	dose, err := uv.DoseAt(nil, uv.DoseInput{
		Unit: uv.Unit{
			WallPower: unit.Watts(36), Lamps: 1, Kind: uv.LowPressure,
			ArcLength: unit.Millimetres(300), ChamberLength: unit.Millimetres(320),
			SleeveDiameter: unit.Millimetres(25), ChamberDiameter: unit.Millimetres(70),
		},
		Condition:  uv.Condition{Transmittance: unit.Percent(70), Age: 1},
		Flow:       unit.LitresPerHour(5000),
		PondVolume: unit.CubicMetres(10), HoursPerDay: unit.Hours(24),
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	stop, _ := uv.SuppressionDaily()
	fmt.Printf("%.1f W of light in the water\n", dose.Output.Watts())
	fmt.Printf("%.1f mJ/cm² a pass, %.1f on the fastest path\n",
		dose.Mean.MillijoulesPerSquareCentimetre(), dose.Fastest.MillijoulesPerSquareCentimetre())
	fmt.Printf("%.0f passes and %.0f mJ/cm² a day, against %.0f\n",
		dose.PassesPerDay.Float(), dose.Daily.MillijoulesPerSquareCentimetre(), stop.MillijoulesPerSquareCentimetre())
	// Output:
	// 5.3 W of light in the water
	// 5.7 mJ/cm² a pass, 3.7 on the fastest path
	// 12 passes and 68 mJ/cm² a day, against 37
}
