package pipe_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
)

func TestParseFittingsReadsTradeWords(t *testing.T) {
	for text, want := range map[string]pipe.Fittings{
		"": nil,
		"3 slow bends, 1 hose tail 25 in 40": {
			{Kind: pipe.Bend90, Count: 3},
			{Kind: pipe.HoseTail, Count: 1, From: unit.Millimetres(40), To: unit.Millimetres(25)},
		},
		"2x Elbows; 1 tee, and 1 x Non-Return Valve": nil, // "tee" alone is not said clearly
		"2x Elbows; 1 tee-branch, and 1 x Non-Return Valve": {
			{Kind: pipe.Elbow90, Count: 2}, {Kind: pipe.TeeBranch, Count: 1}, {Kind: pipe.CheckValve, Count: 1},
		},
		"2 45° elbows\n1 elbow 45 and 4 90° elbows": {
			{Kind: pipe.Elbow45, Count: 2}, {Kind: pipe.Elbow45, Count: 1}, {Kind: pipe.Elbow90, Count: 4},
		},
		"1 reducer 50 to 40 at 30°, 1 sudden change 40mm to 50 mm": {
			{Kind: pipe.Reducer, Count: 1, From: unit.Millimetres(50), To: unit.Millimetres(40), Angle: unit.Degrees(30)},
			{Kind: pipe.SuddenChange, Count: 1, From: unit.Millimetres(40), To: unit.Millimetres(50)},
		},
		"1 rounded entry radius 12.5, 1 valve Kv 25": {
			{Kind: pipe.RoundedEntry, Count: 1, Radius: unit.Millimetres(12.5)},
			{Kind: pipe.Valve, Count: 1, Kv: unit.CubicMetresPerHour(25)},
		},
	} {
		got, err := pipe.ParseFittings(text)
		if want == nil && text != "" {
			assert.Error(t, err, text)
			continue
		}
		require.NoError(t, err, text)
		assert.Equal(t, want, got, text)
	}
}

func TestParseFittingsSaysWhatToChange(t *testing.T) {
	for text, want := range map[string]string{
		"3 sloow bends":             `did you mean "slow bend"?`,
		"slow bend":                 "how many",
		"0 slow bends":              "how many",
		"2 elbows 25":               `write it as "1 elbow"`,
		"1 hose tail":               `write it as "1 hose tail 25 in 40"`,
		"1 hose tail 1/2 in 1":      `write it as "1 hose tail 25 in 40"`,
		"1 hose tail 40 in 25":      "the smaller one of the tail",
		"1 reducer 50 to 50":        "the bore before and the bore after",
		"1 valve":                   `write it as "1 valve Kv 25"`,
		"1 elbow,, 2 bends":         "leave out the comma",
		"1 gizmo":                   "use a name such as",
		"1 valve Kv 1e300":          "sizes do not read",
		"9999999 elbows":            "how many",
		strings.Repeat("1 e,", 200): "give 100 at most",
	} {
		_, err := pipe.ParseFittings(text)
		var errs input.Errors
		require.ErrorAs(t, err, &errs, text)
		assert.Contains(t, errs.Error(), want, text)
	}
	_, err := pipe.ParseFittings("1 elbo, 2 bends, x, 1 hose tail")
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 3, "every fault is named at once")
}

// Law: String gives back what ParseFittings read, for every kind there is.
func TestFittingsSayThemselves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		thousandths := rapid.IntRange(1, 9_999_999)
		millimetres := func(name string) unit.Length {
			return unit.Millimetres(float64(thousandths.Draw(t, name)) / 1000)
		}
		f := pipe.Fitted{
			Kind:  pipe.Kind(rapid.IntRange(int(pipe.Elbow90), int(pipe.Valve)).Draw(t, "kind")),
			Count: rapid.IntRange(1, 1000).Draw(t, "count"),
		}
		switch f.Kind {
		case pipe.HoseTail:
			f.From = millimetres("from")
			f.To = min(f.From, millimetres("to"))
		case pipe.Reducer, pipe.SuddenChange:
			f.From, f.To = millimetres("from"), millimetres("to")
			if f.Kind == pipe.Reducer && rapid.Bool().Draw(t, "angled") {
				f.Angle = unit.Degrees(float64(rapid.IntRange(1000, 180_000).Draw(t, "angle")) / 1000)
			}
			if f.From == f.To {
				return
			}
		case pipe.RoundedEntry:
			f.Radius = millimetres("radius")
		case pipe.Valve:
			f.Kv = unit.CubicMetresPerHour(float64(thousandths.Draw(t, "Kv")) / 1000)
		}
		want := pipe.Fittings{f, {Kind: pipe.Entry, Count: 2}}
		got, err := pipe.ParseFittings(want.String())
		require.NoError(t, err)
		assert.Equal(t, want, got)
	})
}

// Every kind is also read by the name it has in a list of parts.
func TestEveryKindIsReadByItsNames(t *testing.T) {
	for kind := pipe.Elbow90; kind <= pipe.Valve; kind++ {
		got, err := pipe.ParseFittings("1 " + strings.ReplaceAll(kind.String(), ",", ""))
		if err == nil {
			assert.Equal(t, kind, got[0].Kind)
		} else {
			assert.ErrorContains(t, err, "sizes do not read", kind)
		}
	}
}

func FuzzParseFittings(f *testing.F) {
	f.Add("3 slow bends, 1 hose tail 25 in 40")
	f.Add("1 reducer 50 to 40 at 30°; 2x elbows\n1 valve Kv 2.5 and 1 rounded entry radius 10")
	f.Add("1 hose tail 0.001 in .5")
	f.Fuzz(func(t *testing.T, text string) {
		got, err := pipe.ParseFittings(text)
		if err != nil {
			var errs input.Errors
			require.ErrorAs(t, err, &errs)
			return
		}
		again, err := pipe.ParseFittings(got.String())
		require.NoError(t, err, got.String())
		assert.Equal(t, got, again)
		if len(got) == 0 {
			return
		}
		_, err = pipe.NewRun(pipe.Spec{Length: 1, Bore: unit.Millimetres(40), Wall: pipe.Smooth, Fittings: got})
		assert.NoError(t, err)
	})
}
