package csvcatalogue

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFileThatIsWrongAsAWholeIsRefused(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(map[string][]byte)
		says  []string
	}{
		"unknown column":  {func(f map[string][]byte) { edit(t, f, "pumps.csv", "solids_mm", "solid_mm") }, []string{"pumps.csv row 1, column solid_mm: is not known: did you mean solids_mm?"}},
		"stranger column": {func(f map[string][]byte) { edit(t, f, "hoses.csv", "wall", "colour") }, []string{"column colour: is not known: the columns are item_number, description, in_stock, bore_mm, wall", "hoses.csv row 1, column wall: is missing"}},
		"price of a hose": {func(f map[string][]byte) { edit(t, f, "hoses.csv", "description", "price") }, []string{"column price: is not known: did you mean price_per_m?"}},
		"no head column":  {func(f map[string][]byte) { edit(t, f, "pump_curves.csv", ",head_m", ",") }, []string{"pump_curves.csv row 1, column head_m: is missing: add it"}},
		"column twice":    {func(f map[string][]byte) { edit(t, f, "pumps.csv", "solids_mm", "power_w") }, []string{"column power_w: gives what column power_w gives already"}},
		"column unnamed": {func(f map[string][]byte) {
			edit(t, f, "liners.csv", "8.40", "8.40,new")
			edit(t, f, "liners.csv", "price_per_m2", "price_per_m2,")
		}, []string{"liners.csv row 1, column 9: has cells but no name"}},
		"no catalogue.csv": {func(f map[string][]byte) { delete(f, "catalogue.csv") }, []string{"catalogue.csv: is missing"}},
		"two catalogues":   {func(f map[string][]byte) { f["catalogue.csv"] = append(f["catalogue.csv"], "B,EUR,\n"...) }, []string{"catalogue.csv: has 2 rows below its header"}},
		"currency":         {func(f map[string][]byte) { edit(t, f, "catalogue.csv", "EUR", "euro") }, []string{"catalogue.csv row 2, column currency: does not match regex pattern"}},
		"misspelt file":    {func(f map[string][]byte) { f["pump.csv"] = f["pumps.csv"] }, []string{"pump.csv: is not a table of a catalogue: did you mean pumps.csv?"}},
		"empty file":       {func(f map[string][]byte) { f["hoses.csv"] = nil }, []string{"hoses.csv: is empty"}},
		"UTF-16":           {func(f map[string][]byte) { f["hoses.csv"] = []byte("\xff\xfei\x00t\x00") }, []string{"hoses.csv: is not UTF-8 text", "CSV UTF-8"}},
		"Latin-1":          {func(f map[string][]byte) { edit(t, f, "liners.csv", "EPDM lining", "sch\xf6ne EPDM") }, []string{"liners.csv row 2: has letters that are not UTF-8"}},
		"tabs": {func(f map[string][]byte) {
			f["hoses.csv"] = []byte(strings.ReplaceAll(string(f["hoses.csv"]), ",", "\t"))
		}, []string{"hoses.csv row 1: has tabs between its cells"}},
		"stray quote": {func(f map[string][]byte) { edit(t, f, "liners.csv", "EPDM lining 1.0 mm", `EPDM 40" wide`) }, []string{`liners.csv row 2: has a quote " inside a cell`}},
		"unclosed quote": {func(f map[string][]byte) {
			edit(t, f, "pumps.csv", `foam cage"`, `foam cage`)
		}, []string{"pumps.csv row 2: has a cell whose quote"}},
		"everything at once": {func(f map[string][]byte) {
			edit(t, f, "pumps.csv", "price", "prize")
			edit(t, f, "filters.csv", "body", "bodie")
			f["x.csv"] = []byte("a")
		}, []string{"prize", "bodie", "filters.csv row 1, column body: is missing", "x.csv: is not a table"}},
	} {
		t.Run(name, func(t *testing.T) {
			files := goodFiles(t)
			c.spoil(files)
			_, err := openFiles(t, files)
			var format *FormatError
			require.ErrorAs(t, err, &format)
			for _, part := range c.says {
				assert.ErrorContains(t, err, part)
			}
			assert.NotContains(t, err.Error(), "\n")
		})
	}
}

func TestBadRowLeavesOutItsItemAlone(t *testing.T) {
	for name, c := range map[string]struct {
		file, old, new, number string
		says                   []string
	}{
		"not a number":        {"pumps.csv", "89.00", "about 90", "P-1", []string{`pumps.csv row 2, column price: "about 90" is not a number`}},
		"with its unit":       {"pump_curves.csv", "2.2,60", "2.2 m,60", "P-1", []string{`pump_curves.csv row 3, column head_m: "2.2 m" is not a number: write the number alone`}},
		"not a number, NaN":   {"pump_curves.csv", "2.2,60", "NaN,60", "P-1", []string{`"NaN" is not a number`}},
		"hexadecimal":         {"pump_curves.csv", "2.2,60", "0x2,60", "P-1", []string{`"0x2" is not a number`}},
		"too large":           {"pump_curves.csv", "2.2,60", "1e999,60", "P-1", []string{`"1e999" is too large`}},
		"decimal comma":       {"liners.csv", "8.40", `"8,40"`, "L-1", []string{`liners.csv row 2, column price_per_m2: "8,40" has a comma: the decimal mark is a dot`}},
		"comma unquoted":      {"liners.csv", "8.40", "8,40", "L-1", []string{"liners.csv row 2: has more cells than the header"}},
		"wrong word":          {"filters.csv", "pressure,foam", "pressure,sponge", "F-1", []string{`filters.csv row 2, column medium: "sponge" is not one of foam, matting`}},
		"capital word":        {"filters.csv", "pressure,foam", "Pressure,foam", "F-1", []string{`"Pressure" is not one of pressure, open`}},
		"empty cell":          {"hoses.csv", ",smooth,", ",,", "H-1", []string{"hoses.csv row 2, column wall: is empty: fill it in"}},
		"zero left out":       {"pump_curves.csv", "P-1,0,", "P-1,,", "P-1", []string{"pump_curves.csv row 2, column flow_l_per_h: is empty: fill it in"}},
		"free of charge":      {"liners.csv", "8.40", "", "L-1", []string{"liners.csv row 2, column price_per_m2: is empty: fill it in"}},
		"half a group":        {"filters.csv", "6000,4000,0.6", "6000,4000,", "F-1", []string{"filters.csv row 2, column clean_loss_head_m: is empty: fill it in, or empty the other clean_loss cells"}},
		"part of a lamp":      {"lamp_units.csv", "low_pressure,1,", "low_pressure,1.5,", "U-1", []string{`lamp_units.csv row 2, column lamp_count: "1.5" is not a whole number`}},
		"rule of the proto":   {"hoses.csv", "25.4", "2.54", "H-1", []string{"hoses.csv row 2, column bore_mm: must be greater than or equal to 5"}},
		"rule of a message":   {"hoses.csv", ",22,", ",28,", "H-1", []string{"hoses.csv row 2: tail_bore_mm must not be greater"}},
		"curve not in order":  {"pump_curves.csv", "P-1,3000", "P-1,7000", "P-1", []string{"pump_curves.csv row 4, column flow_l_per_h: flow 6000 L/h does not lie above the 7000 L/h before it"}},
		"more than physics":   {"pump_curves.csv", "2.2,60", "2.2,6", "P-1", []string{"pump_curves.csv row 3, column power_w: 6 W is less than"}},
		"no curve":            {"pump_curves.csv", "P-2,0,4.5,\nP-2,9000,0,\n", "", "P-2", []string{`pump_curves.csv, column item_number "P-2": must contain at least 2`}},
		"curve of nobody":     {"pump_curves.csv", "P-2,0", "P-9,0", "P-9", []string{`pump_curves.csv row 5, column item_number: no pump has the number "P-9"`}},
		"number twice":        {"pumps.csv", "P-2,solids", "P-1,solids", "P-1", []string{`"P-1" is used by pumps.csv row 2 and pumps.csv row 3`}},
		"number in two files": {"hoses.csv", "H-1", "L-1", "L-1", []string{`"L-1" is used by hoses.csv row 2 and liners.csv row 2`}},
		"no number":           {"hoses.csv", "H-1", "", "", []string{"hoses.csv row 2, column item_number: is empty"}},
		"every problem":       {"hoses.csv", "25.4,smooth,22,2.90", "wide,rough,,dear", "H-1", []string{"column bore_mm", "column wall", "column price_per_m"}},
	} {
		t.Run(name, func(t *testing.T) {
			files := goodFiles(t)
			edit(t, files, c.file, c.old, c.new)
			catalogue, err := openFiles(t, files)
			require.NoError(t, err)
			items, rejects := read(t, catalogue)
			require.Contains(t, rejects, c.number)
			for _, part := range c.says {
				assert.Contains(t, rejects[c.number].Error(), part)
			}
			assert.NotContains(t, items, c.number)
			assert.GreaterOrEqual(t, len(items), 5, "the others load")
			assert.Contains(t, items, "F-2")
		})
	}
}

func TestNumbersHaveOneReading(t *testing.T) {
	for _, n := range []struct {
		text  string
		comma bool
		want  float64
	}{
		{"0", false, 0}, {"12.5", false, 12.5}, {"-3", false, -3}, {"+4", false, 4}, {"1e3", false, 1000}, {"1500", true, 1500},
		{"12,5", true, 12.5}, {"0,05", true, 0.05}, {"1,5e2", true, 150}, {"1234,567", true, 1234.567},
	} {
		got, err := number(n.text, n.comma)
		assert.NoError(t, err)
		assert.Equal(t, n.want, got)
	}
	for _, n := range []struct {
		text  string
		comma bool
		says  string
	}{
		{"1,5", false, "the decimal mark is a dot"}, {"1,500", false, "has a comma"}, {"1.5", true, "write 1,5"},
		{"1,500", true, "write 1500, or 1,5"}, {"1,000", true, "write 1000, or 1 if"}, {"1.234,5", true, "has a dot"}, {"1 500", false, "not a number"},
		{"£5", false, "not a number"}, {"1,2,3", true, "not a number"}, {".5", false, "not a number"}, {"5.", false, "not a number"},
		{"inf", false, "not a number"}, {"1_000", false, "not a number"}, {"--1", false, "not a number"}, {"1e400", false, "too large"},
	} {
		_, err := number(n.text, n.comma)
		assert.ErrorContains(t, err, n.says, n.text)
	}
}

func TestOtherFilesMayLieThere(t *testing.T) {
	files := goodFiles(t)
	files["README.txt"], files[".~lock.pumps.csv#"], files[".hidden.csv"] = nil, nil, nil
	_, err := openFiles(t, files)
	assert.NoError(t, err)
}

func TestFolderThatIsNotThere(t *testing.T) {
	_, err := Open("testdata/nowhere")
	assert.ErrorIs(t, err, os.ErrNotExist)
}
