package visit_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/visit"
)

// An installers' example (common practice): a pond of 100 square feet with 15 of stream and 48 of upper pond shows each inch that evaporates
// from all of it as 1.63 inches.
func ExampleUnexplained() {
	inch := unit.Inches(1)
	fall := visit.Unexplained.Eval(visit.UnexplainedInput{Evaporation: inch, All: unit.SquareMetres(163), Pond: unit.SquareMetres(100)})
	fmt.Printf("%.2f in\n", -fall.Inches())
	// Output: 1.63 in
}

// A level that falls 12 mm a day, and 5 mm with the stream off, loses 7 mm to the stream: 158 L on 22.6 m². By hand.
func TestTheStreamsShare(t *testing.T) {
	running, still := unit.Millimetres(12), unit.Millimetres(5)
	loss := visit.Level{
		Running: &running, Stopped: &still, Evaporation: unit.Millimetres(4), EvaporationOff: unit.Percent(15), Unsure: unit.Millimetres(1),
		Pond: unit.SquareMetres(22.56), All: unit.SquareMetres(26.7),
	}.Explain(nil)
	assert.InDelta(t, 7, loss.FallShare.Millimetres(), 1e-9)
	assert.InDelta(t, 157.9, loss.FallLitres.Litres(), 0.05)
	assert.InDelta(t, 4.734, loss.FromEvaporation.Millimetres(), 0.001)
	assert.InDelta(t, 0.266, loss.Unexplained.Millimetres(), 0.001)
	assert.Equal(t, []string{"FALL_LOSES_WATER"}, codes(loss.Findings))
}

func codes(found []finding.Finding) (all []string) {
	for _, f := range found {
		all = append(all, f.Code)
	}
	return all
}

func TestWhatALevelSays(t *testing.T) {
	mm := func(v float64) *unit.Length { l := unit.Millimetres(v); return &l }
	base := visit.Level{Evaporation: unit.Millimetres(4), EvaporationOff: unit.Percent(15), Unsure: unit.Millimetres(1), Pond: unit.SquareMetres(10), All: unit.SquareMetres(10)}
	for name, c := range map[string]struct {
		running, stopped *unit.Length
		want             []string
	}{
		"only the sun":     {nil, mm(5), []string{"ONLY_THE_SUN"}},
		"a hole":           {nil, mm(20), []string{"POND_LOSES_WATER"}},
		"hole and splash":  {mm(40), mm(20), []string{"FALL_LOSES_WATER", "POND_LOSES_WATER"}},
		"not yet known":    {mm(20), nil, []string{"LEVEL_FALLS_TOO_FAST"}},
		"splash alone":     {mm(15), mm(4), []string{"FALL_LOSES_WATER"}},
		"within the ruler": {mm(6), mm(5), []string{"ONLY_THE_SUN"}},
	} {
		l := base
		l.Running, l.Stopped = c.running, c.stopped
		assert.Equal(t, c.want, codes(l.Explain(nil).Findings), name)
	}
}

// Shares add up: the fall of the running day is the fall's share, the weather's and the rest.
func TestSharesOfTheLevelAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		running, still := unit.Millimetres(rapid.Float64Range(0, 60).Draw(t, "running")), unit.Millimetres(rapid.Float64Range(0, 60).Draw(t, "still"))
		l := visit.Level{
			Running: &running, Stopped: &still, Evaporation: unit.Millimetres(rapid.Float64Range(0, 10).Draw(t, "evaporation")), Unsure: unit.Millimetres(1),
			Pond: unit.SquareMetres(rapid.Float64Range(1, 100).Draw(t, "pond")),
		}
		l.All = l.Pond + unit.SquareMetres(rapid.Float64Range(0, 50).Draw(t, "upper"))
		loss := l.Explain(nil)
		assert.InDelta(t, running.Millimetres(), (*loss.FallShare + loss.FromEvaporation + loss.Unexplained).Millimetres(), 1e-9)
		assert.NotEmpty(t, loss.Findings)
	})
}

func TestFlowIsJudgedByItsIndex(t *testing.T) {
	for index, code := range map[float64]string{100: "FLOW_AS_PLANNED", 92: "FLOW_AS_PLANNED", 84: "FLOW_BELOW", 60: "FLOW_FAR_BELOW", 130: "FLOW_ABOVE"} {
		assert.Equal(t, code, visit.JudgeFlow(unit.Percent(index), unit.Percent(3)).Code, "%g %%", index)
	}
	assert.Equal(t, "FLOW_AS_PLANNED", visit.JudgeFlow(unit.Percent(84), unit.Percent(8)).Code, "within the watch")
}

// Total ammonia of 1.2 mg/L at pH 8.5 and 20 °C, a case from an advice column, is 0.13 mg/L un-ionised by the equation of Emerson 1975: far
// above what fish stand.
func TestAmmoniaIsJudgedByItsPoisonousShare(t *testing.T) {
	ph, warm, tan, nitrite := 8.5, unit.Celsius(20), unit.MilligramsPerLitre(1.2), unit.MilligramsPerLitre(1.0/3.28)
	held, found := visit.Water{PH: &ph, Temperature: &warm, TAN: &tan, Nitrite: &nitrite}.Judge(nil)
	for _, h := range held {
		if h.Name == "un-ionised ammonia nitrogen" {
			assert.InDelta(t, 0.13, h.Value.Number, 0.01)
		}
	}
	var subjects []string
	for _, f := range found {
		subjects = append(subjects, f.Subject)
		assert.NotEmpty(t, f.Change)
	}
	assert.Contains(t, subjects, "un-ionised ammonia nitrogen")
	assert.Contains(t, subjects, "nitrite nitrogen")
	_, unknown := visit.Water{TAN: &tan}.Judge(nil)
	assert.Contains(t, codes(unknown), "AMMONIA_NEEDS_PH")
}

func TestGoodWaterIsLeftAlone(t *testing.T) {
	ph, warm, none, hard, air := 7.8, unit.Celsius(18), unit.Concentration(0), unit.MilligramsPerLitre(120), unit.MilligramsPerLitre(9)
	held, found := visit.Water{PH: &ph, Temperature: &warm, TAN: &none, Nitrite: &none, Nitrate: &none, Chlor: &none, Alkalinity: &hard, Oxygen: &air}.Judge(nil)
	assert.Empty(t, found)
	assert.Len(t, held, 9)
}

// A bucket of 12 L in 41 s is 1,054 L/h; of 2,007 L/h as planned that is 52 %. By hand.
func ExampleFlowIndex() {
	now := unit.LitresPerHour(12.0 / 41 * 3600)
	fmt.Printf("%.0f L/h, %.0f %%\n", now.LitresPerHour(), visit.FlowIndex.Eval(visit.IndexInput{Now: now, Expected: unit.LitresPerHour(2007)}).Percent())
	// Output: 1054 L/h, 52 %
}
