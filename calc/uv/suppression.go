package uv

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// SuppressionDaily is the published dose that the dose a whole pond gathers in a day is held against: 37 mJ/cm², which
// stopped the growth of the blue-green Microcystis for about seven days.
//
// What it shows: a pond that gathers less in a day gets less than what held even this weak kind for a week. What it does
// not show: that a pond which gathers more will clear. The dose was given at once, not in a dozen passes with light between
// them in which cells repair; and three kinds of green cells showed no suppression at all at 20 to 200 mJ/cm²
// (kill.Find("green-not-suppressed")). No single pass through a garden unit is called a kill.
func SuppressionDaily() (unit.Fluence, source.Source) {
	return unit.MillijoulesPerSquareCentimetre(37), source.BinAlam2001
}
