package filter

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// Outside these a number is a slip of the pen.
const (
	largestSurface = 1e6 // m²
	largestVolume  = 1e4 // m³
	mostTAN        = 100 // mg/L
)

func checkFilter(problems *input.Errors, f Filter) {
	if f.Medium < Foam || f.Medium > Granular {
		problems.Add("medium", "give foam, matting, moving carriers, trickling packing, floating beads or sand", "no rate is known for the media")
	}
	surface, volume := f.Surface.SquareMetres(), f.MediaVolume.CubicMetres()
	if !(surface >= 0 && surface <= largestSurface) {
		problems.Add("surface_m2", "give the surface of the media, or nothing", "%g m² is no surface of media", surface)
	}
	if !(volume >= 0 && volume <= largestVolume) {
		problems.Add("media_volume_l", "give the volume of the media, or nothing", "%g L is no volume of media", f.MediaVolume.Litres())
	}
	if surface == 0 && volume == 0 {
		problems.Add("surface_m2", "give the surface or the volume of the media; a box rated in litres of pond does not say", "no amount of media")
	}
}

func checkTemperature(problems *input.Errors, T unit.Temperature) {
	if !(T >= 0 && T <= 40) {
		problems.Add("water_temperature_c", "give the water temperature, 0 to 40 °C", "%g °C", T.Celsius())
	}
}

func checkTAN(problems *input.Errors, tan unit.Concentration) {
	if !(tan >= 0 && tan <= unit.MilligramsPerLitre(mostTAN)) {
		problems.Add("tan_mg_per_l", "give total ammonia as nitrogen, 0 to 100 mg/L", "%g mg/L", tan.MilligramsPerLitre())
	}
}

func surfaceNotUsable(f Filter, most unit.Area) finding.Finding {
	return finding.Finding{
		Code: "MEDIA_SURFACE_NOT_USABLE", Severity: finding.Caution, Subject: "filter",
		Sentence: fmt.Sprintf("The surface stated is %.0f m²; %s L of %s keeps at most %.0f m² open in use, and that was taken.",
			f.Surface.SquareMetres(), finding.Whole(f.MediaVolume.Litres()), f.Medium, most.SquareMetres()),
		Value: finding.Of(f.Surface.SquareMetres(), "m²"), Limit: finding.Of(most.SquareMetres(), "m²"),
		Change: "Ask whether the surface stated is that of clean media.", Source: source.MediaRates,
	}
}

func temperatureFindings(T unit.Temperature) []finding.Finding {
	value := finding.Of(T.Celsius(), "°C")
	switch {
	case T > 30:
		return []finding.Finding{{
			Code: "FILTER_WATER_TOO_WARM", Severity: finding.Caution, Subject: "filter",
			Sentence: fmt.Sprintf("At %.1f °C the water is warmer than any rate is stated for; no more was taken than at 30 °C, and oxygen may run short first.", T.Celsius()),
			Value:    value, Limit: finding.Of(30, "°C"), Change: "Shade the pond and aerate.", Source: source.MediaRates,
		}}
	case T < 10:
		stated := ""
		if T < 1 {
			stated = " No rate is stated for water below 1 °C."
		}
		return []finding.Finding{{
			Code: "FILTER_COLD", Severity: finding.Note, Subject: "filter",
			Sentence: fmt.Sprintf("At %.1f °C the filter works at %.0f %% of its rate at 20 °C, slower than the gut of the fish.%s", T.Celsius(), 100*temperatureFactor(T.Celsius()), stated),
			Value:    value, Limit: finding.Of(10, "°C"), Change: "Feed little or nothing until the water warms.", Source: source.ColdNitrification,
		}}
	}
	return nil
}
