package brief

import (
	"io/fs"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.yaml.in/yaml/v3"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	"encoding/json"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/testdata"
)

// good is a brief without a mistake, that the tests change.
const good = `title: Höhe
pond:
  bays:
    - name: lower
      rectangle: {length_m: 6, width_m: 3.5}
      depth_m: 1.2
      steps:
        - depth_m: .3
          width_m: 3e-1
stock:
  groups:
    - species: koi
      count: 4.0
      length_cm: +35
fall:
  height_m: 1
  sill_width_cm: 40
  sheet: thin
delivery:
  hose_length_m: 8
  fittings:
    - {kind: ball_valve, count: 1}
    - {kind: FITTING_KIND_ELBOW_90, count: 2}
wishes:
  filter: yes
  lamp_unit: "no"
`

func TestReadFillsTheMessage(t *testing.T) {
	b, at, err := Read("pond.yaml", []byte(good))
	require.NoError(t, err)
	assert.True(t, proto.Equal(&pondwrightv1.Brief{
		Title: "Höhe",
		Pond: &pondwrightv1.Pond{Bays: []*pondwrightv1.Bay{{
			Name:    "lower",
			Outline: &pondwrightv1.Bay_Rectangle{Rectangle: &pondwrightv1.Rectangle{LengthM: 6, WidthM: 3.5}},
			DepthM:  1.2,
			Steps:   []*pondwrightv1.Step{{DepthM: 0.3, WidthM: 0.3}},
		}}},
		Stock: &pondwrightv1.Stock{Groups: []*pondwrightv1.FishGroup{
			{Species: pondwrightv1.Species_SPECIES_KOI, Count: 4, LengthCm: 35}}},
		Fall: &pondwrightv1.Fall{HeightM: proto.Float64(1), SillWidthCm: 40, Wanted: &pondwrightv1.Fall_Sheet{Sheet: pondwrightv1.Sheet_SHEET_THIN}},
		Delivery: &pondwrightv1.Delivery{HoseLengthM: 8, Fittings: []*pondwrightv1.Fitting{
			{Kind: pondwrightv1.FittingKind_FITTING_KIND_BALL_VALVE, Count: 1},
			{Kind: pondwrightv1.FittingKind_FITTING_KIND_ELBOW_90, Count: 2}}},
		Wishes: &pondwrightv1.Wishes{Filter: pondwrightv1.Want_WANT_YES, LampUnit: pondwrightv1.Want_WANT_NO},
	}, b), "%v", b)

	for path, want := range map[string]Position{
		"title":                          {1, 8},
		"pond":                           {2, 1},
		"pond.bays":                      {3, 3},
		"pond.bays[0]":                   {4, 7},
		"pond.bays[0].rectangle":         {5, 7},
		"pond.bays[0].rectangle.width_m": {5, 41},
		"pond.bays[0].steps[0].width_m":  {9, 20},
		"delivery.fittings[1].kind":      {23, 14},
	} {
		got, ok := at.Find(path)
		assert.True(t, ok, path)
		assert.Equal(t, want, got, path)
	}
	_, ok := at.Find("running")
	assert.False(t, ok)
}

// The same file, read by another YAML library and by protobuf's own JSON, is the same brief.
func TestReadAgreesWithGeneralPurposeReaders(t *testing.T) {
	files, err := fs.Glob(testdata.Briefs, "briefs/*.yaml")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		text, err := fs.ReadFile(testdata.Briefs, file)
		require.NoError(t, err)
		job, _, err := ReadJob(file, text)
		require.NoError(t, err, file)
		got := job.GetBrief()

		var tree map[string]any
		require.NoError(t, yaml.Unmarshal(text, &tree))
		whole, ok := tree["job"].(map[string]any)
		require.True(t, ok, file)
		delete(tree, "job")
		whole["brief"] = tree
		asJSON, err := json.Marshal(fullNames(whole))
		require.NoError(t, err)
		want := &pondwrightv1.JobBrief{}
		require.NoError(t, protojson.Unmarshal(asJSON, want), file)
		assert.True(t, proto.Equal(want, job), file)

		// protobuf's JSON is a brief as well, in one line and in many.
		for _, layout := range []protojson.MarshalOptions{{UseProtoNames: true}, {UseProtoNames: true, Multiline: true, Indent: "\t"}} {
			asJSON, err := layout.Marshal(got)
			require.NoError(t, err)
			again, _, err := Read("brief.json", asJSON)
			require.NoError(t, err, string(asJSON))
			assert.True(t, proto.Equal(got, again), file)
		}
	}
}

// fullNames puts the names of enum values as protobuf's JSON wants them.
func fullNames(tree any) any {
	prefixes := map[string]string{"species": "SPECIES_", "sheet": "SHEET_", "kind": "FITTING_KIND_", "wall": "HOSE_WALL_",
		"filter": "WANT_", "lamp_unit": "WANT_", "ground": "GROUND_KIND_", "material": "LINING_MATERIAL_", "edge": "SILL_EDGE_",
		"region": "WIRING_REGION_", "dig_method": "DIG_METHOD_"}
	switch v := tree.(type) {
	case map[string]any:
		for key, value := range v {
			if name, ok := value.(string); ok && prefixes[key] != "" {
				v[key] = prefixes[key] + strings.ToUpper(name)
				continue
			}
			v[key] = fullNames(value)
		}
	case []any:
		for i := range v {
			v[i] = fullNames(v[i])
		}
	}
	return tree
}

func TestReadTakesWindowsLinesAndAByteOrderMark(t *testing.T) {
	want, _, err := Read("pond.yaml", []byte(good))
	require.NoError(t, err)
	got, at, err := Read("pond.yaml", []byte("\ufeff"+strings.ReplaceAll(good, "\n", "\r\n")))
	require.NoError(t, err)
	assert.True(t, proto.Equal(want, got))
	place, _ := at.Find("delivery.hose_length_m")
	assert.Equal(t, Position{20, 18}, place)
}

func TestReadTakesJSONEscapes(t *testing.T) {
	text := `{"title": "a\u00e9\ud83d\udc1f\/\"", "pond": {"bays": [{"ellipse": {"length_m": 2, "width_m": 2}, "depth_m": 1}]},
	"delivery": {"hose_length_m": 3, "outlet_height_m": 0}}`
	b, _, err := Read("pond.json", []byte(text))
	require.NoError(t, err)
	assert.Equal(t, `aé🐟/"`, b.GetTitle())
	require.NotNil(t, b.GetDelivery().OutletHeightM)
	assert.Zero(t, b.GetDelivery().GetOutletHeightM())
}

// A YAML tool may write yes and no as true and false; JSON has no other way to say them.
func TestReadTakesTrueAndFalseForYesAndNo(t *testing.T) {
	text := strings.NewReplacer("filter: yes", "filter: true", `lamp_unit: "no"`, "lamp_unit: false").Replace(good)
	b, _, err := Read("pond.yaml", []byte(text))
	require.NoError(t, err)
	assert.Equal(t, pondwrightv1.Want_WANT_YES, b.GetWishes().GetFilter())
	assert.Equal(t, pondwrightv1.Want_WANT_NO, b.GetWishes().GetLampUnit())
}

// The other mistakes in a block are said beside its missing choice.
func TestAMissingChoiceHidesNothing(t *testing.T) {
	text := strings.NewReplacer("      rectangle: {length_m: 6, width_m: 3.5}\n", "", "depth_m: 1.2", "depth_m: 12").Replace(good)
	_, _, err := Read("pond.yaml", []byte(text))
	require.Error(t, err)
	assert.Contains(t, err.Error(), "pond.bays[0]: give one of rectangle, ")
	assert.Contains(t, err.Error(), "pond.bays[0].depth_m: 12 is too large")
}
