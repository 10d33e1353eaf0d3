package fall_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/fall"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
)

// Reference: critical-depth weir theory, q = (2/3)^1.5 √g H^1.5, tabulated by head; ten digits printed.
func TestSillHeadMeetsCriticalDepthTheory(t *testing.T) {
	for _, row := range reftest.Table(t, "hydraulics/weir_broad_crested.csv") {
		q := unit.LitresPerMinute(row.Float("q_ideal_L_min_cm"))
		h := fall.SillHead.Eval(fall.SillHeadInput{Flow: q, Width: unit.Centimetres(1)})
		assert.InEpsilon(t, row.Float("H_mm"), h.Millimetres(), 1e-8)
	}
}

func TestSheetsFollowOneAnother(t *testing.T) {
	_, thin, _ := fall.Thin.Practice()
	full, most, _ := fall.Full.Practice()
	heavy, _, _ := fall.Heavy.Practice()
	assert.Equal(t, thin, full)
	assert.Equal(t, most, heavy)
	flow := fall.SillFlow.Eval(fall.SillFlowInput{PerWidth: full, Width: unit.Centimetres(40)})
	assert.InDelta(t, 4800, flow.LitresPerHour(), 1e-9)
}

func TestSheetAtFollowsTheBands(t *testing.T) {
	for perCentimetre, want := range map[float64]fall.Sheet{59: 0, 61: fall.Thin, 121: fall.Full, 201: fall.Heavy, 999: fall.Heavy} {
		assert.Equal(t, want, fall.SheetAt(unit.LitresPerHourPerCentimetre(perCentimetre)), "%g", perCentimetre)
	}
}
