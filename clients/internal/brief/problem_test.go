package brief

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"

	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// mistakes are changes to the good brief, and all that is said of each.
var mistakes = map[string]struct{ old, new, says string }{
	"misspelt key":     {"title:", "titel:", "1:1: titel: titel is not a field here; use title"},
	"another's style":  {"depth_m: 1.2", "depthM: 1.2", "6:7: pond.bays[0].depthM: depthM is not a field here; use depth_m, in metres"},
	"unit left out":    {"depth_m: 1.2", "depth: 1.2", "6:7: pond.bays[0].depth: depth is not a field here; use depth_m, in metres"},
	"unit in words":    {"depth_m: 1.2", "depth_metres: 1.2", "6:7: pond.bays[0].depth_metres: depth_metres is not a field here; use depth_m"},
	"centimetres":      {"depth_m: 1.2", "depth_cm: 120", "6:7: pond.bays[0].depth_cm: depth_cm is not a field here; use depth_m (1 cm = 0.01 m)"},
	"feet":             {"length_m: 6", "length_ft: 20", "5:19: pond.bays[0].rectangle.length_ft: length_ft is not a field here; use length_m (1 ft = 0.3048 m)"},
	"misspelt feet":    {"length_m: 6", "lenght_ft: 20", "5:19: pond.bays[0].rectangle.lenght_ft: lenght_ft is not a field here; use length_m (1 ft = 0.3048 m)"},
	"metres":           {"sill_width_cm", "sill_width_m", "17:3: fall.sill_width_m: sill_width_m is not a field here; use sill_width_cm (1 m = 100 cm)"},
	"end of a name":    {"hose_length_m", "length_yd", "20:3: delivery.length_yd: length_yd is not a field here; use hose_length_m (1 yd = 0.9144 m)"},
	"bare gallons":     {"sheet: thin", "flow_gph: 900", "18:3: fall.flow_gph: flow_gph is not a field here; use flow_l_per_h (1 gal/h is 4.54609 L/h in the UK and 3.785411784 L/h in the US: say which is meant)"},
	"gallons a minute": {"sheet: thin", "flow_gpm: 15", "18:3: fall.flow_gpm: flow_gpm is not a field here; use flow_l_per_h (1 gal/min is 272.7654 L/h in the UK and 227.124707 L/h in the US: say which is meant)"},
	"US gallons":       {"sheet: thin", "flow_us_gph: 900", "18:3: fall.flow_us_gph: flow_us_gph is not a field here; use flow_l_per_h (1 US gal/h = 3.785411784 L/h)"},
	"cubic metres":     {"sheet: thin", "flow_m3_per_h: 9", "18:3: fall.flow_m3_per_h: flow_m3_per_h is not a field here; use flow_l_per_h (1 m³/h = 1000 L/h)"},
	"gallons nowhere":  {"pond:", "pond:\n  volume_gal: 400", "3:3: pond.volume_gal: volume_gal is not a field here; the fields here are bays, saddle_depth_m, displacing (and a gallon is 4.54609 L in the UK, 3.785411784 L in the US)"},
	"elsewhere's key":  {"title: Höhe", "sill_width_cm: 3", "1:1: sill_width_cm: sill_width_cm is not a field here; it belongs in fall"},
	"nobody's key":     {"title: Höhe", "colour: red", "1:1: colour: colour is not a field here; the fields here are title, pond, stock, water, fall, delivery, running, wishes, owned, winter, filter_delivery"},
	"a key in quotes":  {"title: Höhe", `"a b": red`, `1:1: "a b": "a b" is not a field here; the fields here are title, pond, stock, water, fall, delivery, running, wishes, owned, winter, filter_delivery`},
	"comma in a block": {"width_m: 3.5", "width_m: 3,5", "5:43: pond.bays[0].rectangle.5: 5 is not a field here; the fields here are length_m, width_m; where a fraction was meant, write a point and no comma"},
	"Fahrenheit":       {"stock:", "water: {temperature_f: 64}\nstock:", "10:9: water.temperature_f: temperature_f is not a field here; use temperature_c (°C = (°F - 32) / 1.8)"},
	"kelvins":          {"stock:", "water: {temperature_k: 290}\nstock:", "10:9: water.temperature_k: temperature_k is not a field here; use temperature_c (°C = K - 273.15)"},
	"fraction":         {"stock:", "water: {uv_transmittance_fraction: 0.8}\nstock:", "10:9: water.uv_transmittance_fraction: uv_transmittance_fraction is not a field here; use uv_transmittance_percent (1 is 100 %)"},

	"text with feet":      {"depth_m: 1.2", "depth_m: 3 ft", `6:16: pond.bays[0].depth_m: "3 ft" is text with a unit, and the field is in metres; write 0.9144`},
	"feet and inches":     {"depth_m: 1.2", `depth_m: 3'6"`, `6:16: pond.bays[0].depth_m: "3'6\"" is text with a unit, and the field is in metres; write 1.0668`},
	"text in metres":      {"depth_m: 1.2", `depth_m: "1.2m"`, `6:16: pond.bays[0].depth_m: "1.2m" is text with a unit, and the field is in metres; write 1.2`},
	"text in gallons":     {"sheet: thin", "flow_l_per_h: 400 gph", `18:17: fall.flow_l_per_h: "400 gph" is text with a unit, and the field is in litres an hour; write 1818.436 for UK gallons, 1514.164714 for US gallons`},
	"text in m³/h":        {"sheet: thin", "flow_l_per_h: 4.5 m³/h", `18:17: fall.flow_l_per_h: "4.5 m³/h" is text with a unit, and the field is in litres an hour; write 4500`},
	"text in Fahrenheit":  {"stock:", "water: {temperature_c: 68 °F}\nstock:", `10:24: water.temperature_c: "68 °F" is text with a unit, and the field is in degrees Celsius; write 20`},
	"another measure":     {"depth_m: 1.2", "depth_m: 3 gal", `6:16: pond.bays[0].depth_m: "3 gal" is a volume, and the field is in metres; give a number in metres from 0.05 to 10`},
	"unit where none is":  {"wishes:", "wishes:\n  budget: 3 kW", `25:11: wishes.budget: "3 kW" is text with a unit, and the field has none; give a number above 0 and up to 10000000`},
	"number in quotes":    {"depth_m: 1.2", `depth_m: "1.2"`, `6:16: pond.bays[0].depth_m: "1.2" is text, for it stands in quotes; write 1.2 without them`},
	"comma":               {"depth_m: 1.2", "depth_m: 1,2", `6:16: pond.bays[0].depth_m: "1,2" is not a plain decimal number; write digits, with a point before the fraction and nothing between thousands: a number in metres from 0.05 to 10`},
	"underscores":         {"depth_m: 1.2", "depth_m: 1_0", `6:16: pond.bays[0].depth_m: "1_0" is not a plain decimal number; write digits, with a point before the fraction and nothing between thousands: a number in metres from 0.05 to 10`},
	"hexadecimal":         {"depth_m: 1.2", "depth_m: 0x1", `6:16: pond.bays[0].depth_m: "0x1" is not a plain decimal number; write digits, with a point before the fraction and nothing between thousands: a number in metres from 0.05 to 10`},
	"octal or not":        {"depth_m: 1.2", "depth_m: 010", `6:16: pond.bays[0].depth_m: "010" is not a plain decimal number; write digits, with a point before the fraction and nothing between thousands: a number in metres from 0.05 to 10`},
	"word":                {"depth_m: 1.2", "depth_m: deep", `6:16: pond.bays[0].depth_m: "deep" is not a number; give a number in metres from 0.05 to 10`},
	"truth":               {"depth_m: 1.2", "depth_m: true", `6:16: pond.bays[0].depth_m: "true" is not a number; give a number in metres from 0.05 to 10`},
	"infinity":            {"depth_m: 1.2", "depth_m: -.inf", `6:16: pond.bays[0].depth_m: -.inf is not a number to calculate with; give a number in metres from 0.05 to 10`},
	"not a number":        {"depth_m: 1.2", "depth_m: .nan", `6:16: pond.bays[0].depth_m: .nan is not a number to calculate with; give a number in metres from 0.05 to 10`},
	"overflow":            {"depth_m: 1.2", "depth_m: 1e999", `6:16: pond.bays[0].depth_m: 1e999 is too large to calculate with; give a number in metres from 0.05 to 10`},
	"list for a number":   {"depth_m: 1.2", "depth_m: [1, 2]", `6:16: pond.bays[0].depth_m: a list stands where one value is wanted; give a number in metres from 0.05 to 10`},
	"block for a number":  {"depth_m: 1.2", "depth_m: {least: 1}", `6:16: pond.bays[0].depth_m: a block of fields stands where one value is wanted; give a number in metres from 0.05 to 10`},
	"part of a fish":      {"count: 4.0", "count: 4.5", `13:14: stock.groups[0].count: 4.5 is not a whole number that can be counted to; give a whole number from 1 to 100000`},
	"too many fish to be": {"count: 4.0", "count: 1e12", `13:14: stock.groups[0].count: 1e12 is not a whole number that can be counted to; give a whole number from 1 to 100000`},
	"number for a title":  {"title: Höhe", "title: 12", `1:8: title: 12 is not text; write it in quotes: "12"`},
	"truth for a title":   {"title: Höhe", "title: true", `1:8: title: true is not text; write it in quotes: "true"`},
	"block for a title":   {"title: Höhe", "title: {a: b}", `1:8: title: a block of fields stands where one value is wanted; give a text`},
	"unknown name":        {"species: koi", "species: eel", `12:16: stock.groups[0].species: "eel" is not a name known here; choose goldfish, koi, carp or other`},
	"misspelt name":       {"sheet: thin", "sheet: thn", `18:10: fall.sheet: "thn" is not a name known here; write thin (of thin, full or heavy)`},
	"capital name":        {"species: koi", "species: Koi", `12:16: stock.groups[0].species: "Koi" is not a name known here; write koi (of goldfish, koi, carp or other)`},
	"truth for a name":    {"species: koi", "species: true", `12:16: stock.groups[0].species: "true" is not a name known here; choose goldfish, koi, carp or other`},
	"truth in quotes":     {"filter: yes", `filter: "true"`, `25:11: wishes.filter: "true" is not a name known here; choose yes or no`},
	"number for a name":   {"species: koi", "species: 2", `12:16: stock.groups[0].species: "2" is not a name known here; choose goldfish, koi, carp or other`},
	"no name":             {"species: koi", "species: SPECIES_UNSPECIFIED", `12:16: stock.groups[0].species: this says nothing; choose goldfish, koi, carp or other`},
	"text for a block":    {"{length_m: 6, width_m: 3.5}", "square", `5:18: pond.bays[0].rectangle: the text "square" stands where a block of fields is wanted; give its fields: length_m, width_m`},
	"list for a block":    {"{length_m: 6, width_m: 3.5}", "[6, 3.5]", `5:18: pond.bays[0].rectangle: a list stands where a block of fields is wanted; give its fields: length_m, width_m`},
	"block for a list":    {"        - depth_m: .3", "          depth_m: .3", `8:11: pond.bays[0].steps: a block of fields stands where a list is wanted; begin each of its entries with "- "`},
	"nothing":             {"depth_m: 1.2", "depth_m:", "6:7: pond.bays[0].depth_m: nothing is given for it; give a value or delete the line"},
	"null":                {"depth_m: 1.2", "depth_m: ~", `6:16: pond.bays[0].depth_m: "~" says nothing; give a value or delete the line`},
	"nothing in a list":   {"    - {kind: ball_valve, count: 1}", "    -", "22:6: delivery.fittings[0]: nothing is given for it; give a value or delete the line"},
	"twice":               {"title: Höhe", "title: Höhe\ntitle: Tiefe", "2:1: title: title is given twice, first in line 1; keep one of them"},
	"two of a choice":     {"sheet: thin", "sheet: thin\n  flow_l_per_h: 900", "19:3: fall.flow_l_per_h: flow_l_per_h cannot be given beside sheet; keep one of sheet or flow_l_per_h"},
	"none of a choice":    {"  sheet: thin\n", "", "15:1: fall: give one of sheet, flow_l_per_h"},
	"none of many":        {"      rectangle: {length_m: 6, width_m: 3.5}\n", "", "4:7: pond.bays[0]: give one of rectangle, ellipse, polygon, circle, smooth, two_pegs, string_line, running_ties, notes"},
	"too small":           {"depth_m: 1.2", "depth_m: 0.02", "6:16: pond.bays[0].depth_m: 0.02 is too small; give a number in metres from 0.05 to 10"},
	"too large":           {"depth_m: 1.2", "depth_m: 12", "6:16: pond.bays[0].depth_m: 12 is too large; give a number in metres from 0.05 to 10"},
	"not above":           {"hose_length_m: 8", "hose_length_m: 0", "20:18: delivery.hose_length_m: 0 is too small; give a number in metres above 0 and up to 2000"},
	"too few to count":    {"count: 4.0", "count: 0", "13:14: stock.groups[0].count: 0 is too small; give a whole number from 1 to 100000"},
	"long title":          {"title: Höhe", "title: " + strings.Repeat("x", 121), "1:8: title: the text is too long; shorten it to 120 characters"},
	"no currency":         {"wishes:", "running: {currency: euro}\nwishes:", `24:21: running.currency: "euro" is not a currency by its three capital letters, such as EUR`},
	"few points":          {"rectangle: {length_m: 6, width_m: 3.5}", "polygon: {points: [{x_m: 1, y_m: 2}]}", "5:17: pond.bays[0].polygon.points: 1 entries stand here; give a list of 3 to 300"},
	"number missing":      {"      depth_m: 1.2\n", "", "4:7: pond.bays[0].depth_m: depth_m is missing; give a number in metres from 0.05 to 10"},
	"name missing":        {"species: koi\n      count", "count", "12:7: stock.groups[0].species: species is missing; give goldfish, koi, carp or other"},
	"fall and outlet":     {"hose_length_m: 8", "hose_length_m: 8\n  outlet_height_m: 1", "21:20: brief: give the fall, or the delivery's outlet_height_m where there is none, but not both: one of them says how high the pump must lift"},
	"neither of them":     {"fall:\n  height_m: 1\n  sill_width_cm: 40\n  sheet: thin\n", "", "15:1: brief: give the fall, or the delivery's outlet_height_m where there is none, but not both: one of them says how high the pump must lift"},
	"only a bad choice":   {"rectangle:", "rectangel:", "5:7: pond.bays[0].rectangel: rectangel is not a field here; use rectangle"},
	"a misspelt fall":     {"fall:", "fal:", "15:1: fal: fal is not a field here; use fall"},

	"anchor":        {"depth_m: 1.2", "depth_m: &d 1.2", "6:16: pond.bays[0].depth_m: anchors (&) are not read; delete it, and write the value out where it is used"},
	"alias":         {"height_m: 1\n", "height_m: *d\n", "16:13: fall.height_m: aliases (*) are not read; write the value out"},
	"tag":           {"depth_m: 1.2", "depth_m: !!float 1.2", "6:16: pond.bays[0].depth_m: tags (!) are not read; delete it"},
	"merge":         {"  sheet: thin", "  sheet: thin\n  <<: {height_m: 3}", "19:3: fall: merging another block with << is not read; write its fields out"},
	"question mark": {"title: Höhe", "? title\n: Höhe", "1:1: this key is not a plain name; write the name of a field and a colon"},
	"directive":     {"title: Höhe", "%YAML 1.2\n---\ntitle: Höhe", "1:1: directives are not read; delete this line"},
	"tab":           {"  height_m: 1", "\theight_m: 1", "16:1: this cannot be read as YAML or JSON: found character '\\t' that cannot start any token; look here for a colon, a quote or a bracket too many or too few, and for lines indented by tabs or unevenly"},
	"control":       {"Höhe", "H\x1b[2J", "1:9: a control character (U+001B) stands here; delete it"},
	"Latin-1":       {"Höhe", "H\xf6he", "1:9: this is not text in UTF-8; save the file as UTF-8"},
}

func TestEachMistakeIsSaidInFull(t *testing.T) {
	for name, m := range mistakes {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, 1, strings.Count(good, m.old), "the good brief holds %q once", m.old)
			b, _, err := Read("pond.yaml", []byte(strings.Replace(good, m.old, m.new, 1)))
			assert.Nil(t, b)
			assert.EqualError(t, err, "pond.yaml:"+m.says)
		})
	}
}

// wholeFiles are texts that are no brief at all, and all that is said of each.
var wholeFiles = map[string]struct{ text, says string }{
	"empty":            {"", "1:1: the file is empty; describe a pond in it"},
	"only remarks":     {"# pond\n", "1:1: the file is empty; describe a pond in it"},
	"only a word":      {"pond", `1:1: the text "pond" stands where a block of fields is wanted; give its fields: title, pond, stock, water, fall, delivery, running, wishes, owned, winter, filter_delivery`},
	"only a list":      {"- a\n", "1:1: a list stands where a block of fields is wanted; give its fields: title, pond, stock, water, fall, delivery, running, wishes, owned, winter, filter_delivery"},
	"nested too deep":  {strings.Repeat("[", 1000), "1:51: the file is nested deeper than any brief"},
	"deep in one line": {strings.Repeat("- ", 1000), "1:101: the file is nested deeper than any brief"},
	"too many entries": {strings.Repeat("a: 1\n", 30_000), "25001:2: the file holds more entries than any brief"},
	"too long":         {strings.Repeat(" ", 1<<20+1), "1:1: the file holds 1048577 bytes; a brief is never longer than 1048576"},
	"open quote":       {"title: \"Höhe\n", "1:8: this cannot be read as YAML or JSON: could not find end character of double-quoted text; look here for a colon, a quote or a bracket too many or too few, and for lines indented by tabs or unevenly"},
	"JSON and more":    {`{"title": "a"} b`, "1:16: this cannot be read as YAML or JSON: value is not allowed in this context; look here for a colon, a quote or a bracket too many or too few, and for lines indented by tabs or unevenly"},
}

func TestWhatIsNoBriefIsRefusedAtOnce(t *testing.T) {
	for name, f := range wholeFiles {
		t.Run(name, func(t *testing.T) {
			_, _, err := Read("pond.yaml", []byte(f.text))
			require.Error(t, err)
			first, _, _ := strings.Cut(err.Error(), "\n")
			assert.Equal(t, "pond.yaml:"+f.says, first)
		})
	}
}

func TestAllMistakesAreSaidAtOnceByLine(t *testing.T) {
	_, _, err := Read("pond.yaml", []byte(`titel: Pond
pond:
  bays:
    - rectangle: {length_ft: 20, width_m: 3 ft}
      depth_m: 0.01
    - depth_m: deep
      ellipse: {length_m: 1}
fall:
  sheet: thick
  height_m: 1
---
pond: {}
`))
	assert.EqualError(t, err, `pond.yaml:1:1: titel: titel is not a field here; use title
pond.yaml:1:1: delivery: delivery is missing; give it with its fields: hose_length_m, fittings, wall, fittings_in_words, outlet_height_m
pond.yaml:4:19: pond.bays[0].rectangle.length_ft: length_ft is not a field here; use length_m (1 ft = 0.3048 m)
pond.yaml:4:43: pond.bays[0].rectangle.width_m: "3 ft" is text with a unit, and the field is in metres; write 0.9144
pond.yaml:5:16: pond.bays[0].depth_m: 0.01 is too small; give a number in metres from 0.05 to 10
pond.yaml:6:16: pond.bays[1].depth_m: "deep" is not a number; give a number in metres from 0.05 to 10
pond.yaml:7:7: pond.bays[1].ellipse.width_m: width_m is missing; give a number in metres from 0.1 to 500
pond.yaml:8:1: fall.sill_width_cm: sill_width_cm is missing; give a number in centimetres from 1 to 2000
pond.yaml:9:10: fall.sheet: "thick" is not a name known here; write thin (of thin, full or heavy)
pond.yaml:12:1: a second document starts here; keep one brief in one file`)
}

func TestAFlawedFileDoesNotFillTheScreen(t *testing.T) {
	_, _, err := Read("pond.yaml", []byte(strings.Repeat("z: 1\n", 1000)))
	require.Error(t, err)
	lines := strings.Split(err.Error(), "\n")
	assert.Len(t, lines, 201)
	assert.Regexp(t, `^pond\.yaml: and \d+ problems more$`, lines[200])
}

func TestExplainPutsTheEnginesWordsAtTheirLines(t *testing.T) {
	_, at, err := Read("pond.yaml", []byte(good))
	require.NoError(t, err)
	violations := []*errdetails.BadRequest_FieldViolation{
		{Field: "brief.delivery.fittings[1].count", Description: "too many"},
		{Field: "brief.pond.bays[0].depth_m", Description: "too deep"},
		{Field: "brief.pond.bays[7].depth_m", Description: "no such bay"},
		{Field: "brief.running.years", Description: "not given"},
		{Field: "brief", Description: "as a whole"},
		{Field: "", Description: "nowhere"},
		{Field: "max_kits", Description: "not of the brief"},
		{Field: "]].[", Description: "no path"},
	}
	assert.EqualError(t, at.Explain(violations), `pond.yaml:1:1: running.years: not given
pond.yaml:1:1: brief: as a whole
pond.yaml:1:1: nowhere
pond.yaml:1:1: max_kits: not of the brief
pond.yaml:1:1: ]].[: no path
pond.yaml:3:3: pond.bays[7].depth_m: no such bay
pond.yaml:6:16: pond.bays[0].depth_m: too deep
pond.yaml:23:44: delivery.fittings[1].count: too many`)
}

// Reading is made for any message, so the words of catalogues can be read as well.
func TestOtherMessagesAreReadByTheSameRules(t *testing.T) {
	_, err := decode("item.yaml", []byte(`item_number: A-1
description: a filter
filter: {body: open, medium: foam, medium_gal: 12, bore_in: 2}
`), (&equipmentv1.Item{}).ProtoReflect(), nil)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "item.yaml:3:36: filter.medium_gal: medium_gal is not a field here; use medium_l (1 gal is 4.54609 L in the UK and 3.785411784 L in the US: say which is meant)\n")
	assert.Contains(t, err.Error(), "item.yaml:3:52: filter.bore_in: bore_in is not a field here; the fields here are body, medium, ")

	_, err = decode("hose.yaml", []byte("wall: smooth\nbore_in: 2\nprice_per_ft: 1\n"), (&equipmentv1.Hose{}).ProtoReflect(), nil)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "bore_in is not a field here; use bore_mm (1 in = 25.4 mm)")
	assert.NotContains(t, err.Error(), "0.3048", "a price for each foot is no length")
}
