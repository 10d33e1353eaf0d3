package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/encoding/protojson"

	"example.com/pondwright/calc"
	"example.com/pondwright/calc/working"
	"example.com/pondwright/plugins/builtin"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/testdata"
)

// The embedded engine starts this test binary again as its catalogue plugin.
func TestMain(m *testing.M) {
	if builtin.RunIfAsked(os.Args) {
		return
	}
	os.Exit(m.Run())
}

// demoPonds are the six demonstration briefs with what a person in the trade would expect of an answer. The ponds and the
// catalogue are invented, so these are habits of the trade and plain geometry, not measurements.
var demoPonds = map[string]struct {
	least, most float64 // litres
	filter      bool
	check       func(t *testing.T, best *pondwrightv1.Kit)
}{
	// Rectangle of 2.4 × 1.5 × 0.55 m with a shelf: a little under the box of 1 980 L. Goldfish and a 20 cm fall ask for a
	// small pump with a hose a size up; anything above some 50 W would be money burnt day and night.
	"patio": {1700, 1980, true, func(t *testing.T, best *pondwrightv1.Kit) {
		assert.GreaterOrEqual(t, best.GetHose().GetItem().GetHose().GetBoreMm(), 25.0)
		assert.Less(t, best.GetStates()[0].GetDuty().GetPowerW(), 50.0)
	}},
	// No fish, so no filter and no lamp unit: a stream needs water and nothing else, and nine metres of hose at this flow
	// want 38 mm or more.
	"wildlife": {8200, 9200, false, func(t *testing.T, best *pondwrightv1.Kit) {
		assert.GreaterOrEqual(t, best.GetHose().GetItem().GetHose().GetBoreMm(), 38.0)
	}},
	// 6 × 3 × 1.6 m upright: the box. Half the pond an hour through a large filter at hardly any lift is work for a low-head
	// pump on wide pipe: less than 3 m of head, and more than a quarter of the current into the water.
	"koi": {28700, 28900, true, func(t *testing.T, best *pondwrightv1.Kit) {
		duty := best.GetStates()[0].GetDuty()
		assert.Less(t, duty.GetHeadM().GetExpected(), 3.0)
		assert.Greater(t, duty.GetEfficiencyPercent(), 25.0)
		assert.GreaterOrEqual(t, best.GetHose().GetItem().GetHose().GetBoreMm(), 50.0)
		assert.GreaterOrEqual(t, duty.GetFlowLPerH().GetLow(), 14400.0)
	}},
	// Two bays, a cascade at 1.15 m and 11 m of hose: the 1.15 m are not the half of what the pump works against, so the flow
	// that arrives is well under what the box says.
	"cascade": {18000, 20000, true, func(t *testing.T, best *pondwrightv1.Kit) {
		label := best.GetPump().GetItem().GetPump().GetLabelFlowLPerH()
		assert.Less(t, best.GetStates()[1].GetDuty().GetFlowLPerH().GetExpected(), 0.8*label)
		assert.Greater(t, best.GetStates()[1].GetDuty().GetHeadM().GetExpected(), 1.15)
	}},
	// A trickle in a school pond: the smallest of pumps, and no fish.
	"school": {3000, 3500, false, func(t *testing.T, best *pondwrightv1.Kit) {
		assert.Less(t, best.GetStates()[0].GetDuty().GetPowerW(), 40.0)
	}},
	// Over a thousand cubic metres: the pump serves the weir, not a filter, and its pipe is 100 mm or wider.
	"estate": {1.0e6, 1.2e6, false, func(t *testing.T, best *pondwrightv1.Kit) {
		assert.GreaterOrEqual(t, best.GetHose().GetItem().GetHose().GetBoreMm(), 100.0)
		assert.Greater(t, best.GetStates()[0].GetDuty().GetHeadM().GetExpected(), 3.4)
	}},
}

func TestDemoPonds(t *testing.T) {
	files, err := filepath.Glob("../../testdata/briefs/*.yaml")
	require.NoError(t, err)
	require.Len(t, files, len(demoPonds))
	formulas := map[string]working.Entry{}
	for _, entry := range calc.Formulas() {
		formulas[entry.Describe().ID] = entry
	}
	for _, file := range files {
		name := filepath.Base(file[:len(file)-len(".yaml")])
		t.Run(name, func(t *testing.T) {
			answer := askForReal(t, file)
			want, ok := demoPonds[name]
			require.True(t, ok)
			assert.Greater(t, answer.GetPond().GetVolumeL(), want.least)
			assert.Less(t, answer.GetPond().GetVolumeL(), want.most)
			require.NotEmpty(t, answer.GetKits())
			for _, kit := range answer.GetKits() {
				checkKit(t, answer, kit, want.filter)
			}
			want.check(t, answer.GetKits()[0])
			replay(t, formulas, answer.GetWorkings())
		})
	}
}

// checkKit holds what is true of every kit that is said to work.
func checkKit(t *testing.T, answer *pondwrightv1.SuggestKitsResponse, kit *pondwrightv1.Kit, filtered bool) {
	t.Helper()
	assert.Equal(t, filtered, kit.GetFilter() != nil)
	assert.Equal(t, filtered, kit.GetLampUnit() != nil)
	for _, f := range kit.GetFindings() {
		assert.NotEqual(t, pondwrightv1.Severity_SEVERITY_STOP, f.GetSeverity(), f.GetSentence())
	}
	states := map[bool]int{true: 2, false: 1} // clean and due for cleaning, where there is something to clean
	require.Len(t, kit.GetStates(), states[filtered])
	for _, state := range kit.GetStates() {
		d := state.GetDuty()
		assert.GreaterOrEqual(t, d.GetFlowLPerH().GetLow(), answer.GetWanted().GetLeastLPerH()*(1-1e-9))
		if answer.GetWanted().MostLPerH != nil {
			assert.LessOrEqual(t, d.GetFlowLPerH().GetExpected(), answer.GetWanted().GetMostLPerH()*(1+1e-9))
		}
		sum := 0.0
		for _, share := range d.GetHeadShares() {
			sum += share.GetHeadM()
		}
		assert.InEpsilon(t, d.GetHeadM().GetExpected(), sum, 1e-12)
	}
	assert.Greater(t, kit.GetCost().GetPrice(), 0.0)
}

// replay evaluates every step again from the numbers that crossed the wire. JSON carries a double whole, so the results
// must be the same to the last bit.
func replay(t *testing.T, formulas map[string]working.Entry, steps []*pondwrightv1.WorkingStep) {
	t.Helper()
	require.NotEmpty(t, steps)
	for _, step := range steps {
		entry := formulas[step.GetFormulaId()]
		require.NotNil(t, entry, "%s is not registered", step.GetFormulaId())
		again, err := entry.ReplayValues(values(step.GetInputs()))
		require.NoError(t, err)
		assert.Equal(t, values(step.GetResults()), again, step.GetFormulaId())
		assert.NotNil(t, step.GetSource(), step.GetFormulaId())
	}
}

func values(wire []*pondwrightv1.WorkingValue) []working.Value {
	made := make([]working.Value, len(wire))
	for i, v := range wire {
		made[i] = working.Value{Symbol: v.GetSymbol(), Number: v.GetValue(), Unit: v.GetUnit()}
	}
	return made
}

// askForReal runs the program on a brief with the engine inside it.
func askForReal(t *testing.T, file string) *pondwrightv1.SuggestKitsResponse {
	t.Helper()
	var out, errs bytes.Buffer
	code := run(t.Context(), []string{"--json", "--workings", file}, env{Out: &out, Err: &errs, Width: 80, Embed: embed})
	require.Equal(t, exitFeasible, code, errs.String())
	answer := &pondwrightv1.SuggestKitsResponse{}
	require.NoError(t, protojson.Unmarshal(out.Bytes(), answer))
	return answer
}

// A pond whose kit cannot be had ends with 1, the nearest miss and what stops it.
func TestNothingFeasibleNamesTheNearestMiss(t *testing.T) {
	text, err := os.ReadFile("../../testdata/briefs/school.yaml")
	require.NoError(t, err)
	impossible := bytes.Replace(text, []byte("height_m:"), []byte("height_m: 29 #"), 1)
	require.NotEqual(t, text, impossible)
	file := filepath.Join(t.TempDir(), "high.yaml")
	require.NoError(t, os.WriteFile(file, impossible, 0o600))
	var out, errs bytes.Buffer
	code := run(t.Context(), []string{file}, env{Out: &out, Err: &errs, Width: 80, Embed: embed})
	assert.Equal(t, exitInfeasible, code, errs.String())
	assert.Contains(t, out.String(), "29.00 m")
	assert.Contains(t, out.String(), "nothing flows")
}

// The README shows what the program prints: the start of a real run on the default brief.
func TestReadmeShowsARealRun(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	require.NoError(t, err)
	_, block, found := bytes.Cut(readme, []byte("```text\n"))
	require.True(t, found)
	block, _, found = bytes.Cut(block, []byte("\n```"))
	require.True(t, found)
	var out, errs bytes.Buffer
	code := run(t.Context(), nil, env{
		Out: &out, Err: &errs, Width: 80, Embed: embed, Demo: testdata.Briefs, DemoBrief: testdata.DefaultBrief,
	})
	require.Equal(t, exitFeasible, code, errs.String())
	assert.True(t, bytes.HasPrefix(out.Bytes(), block), "paste the start of what `go run ./clients/jobsheet` prints at 80 columns")
	assert.Contains(t, string(block), "KIT 1 OF 3")
}
