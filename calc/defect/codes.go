package defect

import (
	"slices"

	"example.com/pondwright/calc/finding"
)

// The codes of what can be wrong with a curve.
const (
	NumberMissing     = "NUMBER_MISSING"
	NumberNotFinite   = "NUMBER_NOT_FINITE"
	NumberNegative    = "NUMBER_NEGATIVE"
	NumberOutOfBounds = "NUMBER_OUT_OF_BOUNDS"
	CurveEmpty        = "CURVE_ALL_ZERO"

	TooFewPoints        = "TOO_FEW_POINTS"
	TooManyPoints       = "TOO_MANY_POINTS"
	PointsOutOfOrder    = "POINTS_OUT_OF_ORDER"
	PointRepeated       = "POINT_REPEATED"
	TwoHeadsAtOneFlow   = "TWO_HEADS_AT_ONE_FLOW"
	TwoCurvesInOne      = "TWO_CURVES_IN_ONE"
	AxesSwapped         = "AXES_SWAPPED"
	HeadRises           = "HEAD_RISES"
	HeadDips            = "HEAD_DIPS"
	DroopTwoDuties      = "DROOP_TWO_DUTIES"
	PointOffCurve       = "POINT_OFF_CURVE"
	PowerOffCurve       = "POWER_OFF_CURVE"
	ShutOffMissing      = "SHUT_OFF_MISSING"
	FreeFlowMissing     = "FREE_FLOW_MISSING"
	LabelFlowDisagrees  = "LABEL_FLOW_DISAGREES"
	LabelHeadDisagrees  = "LABEL_HEAD_DISAGREES"
	PowerIncomplete     = "POWER_INCOMPLETE"
	PowerBelowHydraulic = "POWER_BELOW_HYDRAULIC"
	EfficiencyTooHigh   = "EFFICIENCY_BEYOND_REACH"
	EfficiencyTooLow    = "EFFICIENCY_TOO_LOW"
	PowerFalls          = "POWER_FALLS"
	PowerUnit           = "POWER_UNIT_KILOWATT"

	FlowLitresPerMinute   = "FLOW_UNIT_L_PER_MIN"
	FlowLitresPerSecond   = "FLOW_UNIT_L_PER_S"
	FlowCubicMetres       = "FLOW_UNIT_M3_PER_H"
	FlowUKGallons         = "FLOW_UNIT_UK_GALLON"
	FlowUSGallons         = "FLOW_UNIT_US_GALLON"
	FlowUSGallonsPerMin   = "FLOW_UNIT_US_GALLON_PER_MIN"
	FlowOtherGallon       = "FLOW_UNIT_OTHER_GALLON"
	HeadFeet              = "HEAD_UNIT_FOOT"
	HeadKilopascals       = "HEAD_UNIT_KPA"
	HeadBars              = "HEAD_UNIT_BAR"
	HeadPSI               = "HEAD_UNIT_PSI"
	CurveTooPrecise       = "CURVE_TOO_PRECISE"
	CurveIsFormula        = "CURVE_IS_FORMULA"
	OutsideGrade          = "OUTSIDE_GRADE"
	SameCurveTwice        = "SAME_CURVE_TWICE"
	ItemNumberTwice       = "ITEM_NUMBER_TWICE"
	ScaledCopy            = "SCALED_COPY"
	MeasuredNotComparable = "MEASURED_NOT_COMPARABLE"
)

// Codes are all codes with the severity they come with.
func Codes() map[string]finding.Severity {
	return map[string]finding.Severity{
		NumberMissing: finding.Stop, NumberNotFinite: finding.Stop, NumberNegative: finding.Stop, NumberOutOfBounds: finding.Stop,
		CurveEmpty: finding.Stop, TooFewPoints: finding.Caution, TooManyPoints: finding.Stop, PointsOutOfOrder: finding.Stop, PointRepeated: finding.Stop,
		TwoHeadsAtOneFlow: finding.Stop, TwoCurvesInOne: finding.Stop, AxesSwapped: finding.Stop, HeadRises: finding.Stop,
		HeadDips: finding.Stop, DroopTwoDuties: finding.Caution, PointOffCurve: finding.Caution, PowerOffCurve: finding.Caution,
		ShutOffMissing: finding.Caution, FreeFlowMissing: finding.Note, LabelFlowDisagrees: finding.Caution,
		LabelHeadDisagrees: finding.Caution, PowerIncomplete: finding.Stop, PowerBelowHydraulic: finding.Stop,
		EfficiencyTooHigh: finding.Caution, EfficiencyTooLow: finding.Caution, PowerFalls: finding.Caution, PowerUnit: finding.Stop,
		FlowLitresPerMinute: finding.Stop, FlowLitresPerSecond: finding.Stop, FlowCubicMetres: finding.Stop,
		FlowUKGallons: finding.Stop, FlowUSGallons: finding.Stop, FlowUSGallonsPerMin: finding.Stop, FlowOtherGallon: finding.Stop,
		HeadFeet: finding.Stop, HeadKilopascals: finding.Stop, HeadBars: finding.Stop, HeadPSI: finding.Stop,
		CurveTooPrecise: finding.Note, CurveIsFormula: finding.Note, OutsideGrade: finding.Caution,
		SameCurveTwice: finding.Note, ItemNumberTwice: finding.Stop, ScaledCopy: finding.Note, MeasuredNotComparable: finding.Note,
	}
}

// severities is Codes, made once: checks ask for it in the loop.
var severities = Codes()

// gravestFirst orders defects for the reader; those of one severity by how sure they are.
func gravestFirst(d []Defect) {
	slices.SortStableFunc(d, func(a, b Defect) int {
		if a.Severity != b.Severity {
			return int(b.Severity) - int(a.Severity)
		}
		switch {
		case a.Confidence > b.Confidence:
			return -1
		case a.Confidence < b.Confidence:
			return 1
		}
		return 0
	})
}
