package intake_test

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"example.com/pondwright/clients/curvecheck/intake"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

func read(t testing.TB, r *intake.Reader, err error) []intake.Item {
	t.Helper()
	require.NoError(t, err)
	defer r.Close()
	var all []intake.Item
	for {
		item, err := r.Next()
		if errors.Is(err, io.EOF) {
			return all
		}
		require.NoError(t, err)
		all = append(all, item)
	}
}

func readText(t testing.TB, text string) []intake.Item {
	t.Helper()
	r, err := intake.Open("-", strings.NewReader(text), nil)
	return read(t, r, err)
}

// figures are the points of a curve as flow, head, power.
func figures(item intake.Item) (all [][3]float64) {
	for _, c := range item.Message.GetPump().GetCurve() {
		all = append(all, [3]float64{c.GetFlowLPerH(), c.GetHeadM(), c.GetPowerW()})
	}
	return all
}

// One pump of three points, as merchants lay it out.
var wanted = [][3]float64{{0, 3, 0}, {1200, 2.25, 0}, {3000, 0, 0}}

func TestEveryLayoutGivesTheSameCurve(t *testing.T) {
	for name, text := range map[string]string{
		"the contract's":      "item_number,flow_l_per_h,head_m\nA,0,3\nA,1200,2.25\nA,3000,0\n",
		"a row a point":       "Article;Q (l/h);H (m)\nA;0;3\nA;1200;2,25\nA;3000;0\n",
		"tabs and points":     "SKU\tFlow [l/min]\tHead [m]\nA\t0\t3\nA\t20\t2.25\nA\t50\t0\n",
		"m³/h and kPa":        "nr,Q m³/h,H kPa\nA,0,29.41995\nA,1.2,22.0649625\nA,3,0\n",
		"numbered columns":    "item,q1,h1,q2,h2,q3,h3\nA,0,3,1200,2.25,3000,0\n",
		"all in one cell":     "item,points\nA,\"0,3; 1200,2.25; 3000,0\"\n",
		"flows under heads":   "item,0 m,2.25 m,3 m\nA,3000,1200,0\n",
		"heads falling":       "item,3 m,2.25 m,0 m\nA,0,1200,3000\n",
		"German":              "Artikelnummer;Fördermenge in l/h;Förderhöhe in m\r\nA;0;3\r\nA;1200;2,25\r\nA;3000;0\r\n",
		"blank lines between": "\n\nitem,flow,head\n\nA,0,3\n,,\nA,1200,2.25\n\nA,3000,0\n",
		"no last line break":  "item,flow,head\nA,0,3\nA,1200,2.25\nA,3000,0",
		"JSON lines":          `{"item_number":"A","pump":{"curve":[{"flow_l_per_h":0,"head_m":3},{"flow_l_per_h":1200,"head_m":2.25},{"flow_l_per_h":3000,"head_m":0}]}}`,
	} {
		t.Run(name, func(t *testing.T) {
			items := readText(t, text)
			require.Len(t, items, 1)
			assert.Equal(t, "A", items[0].Message.GetItemNumber())
			assert.Empty(t, items[0].Problems)
			require.Len(t, figures(items[0]), 3)
			for i, p := range figures(items[0]) {
				assert.InDeltaSlice(t, wanted[i][:], p[:], 1e-9)
			}
		})
	}
}

func TestEveryEncodingGivesTheSameCurve(t *testing.T) {
	const text = "Artikel;Durchfluss (l/h);Höhe (m)\nÄ;0;3\nÄ;1200;2,25\nÄ;3000;0\n"
	encoded := func(e interface{ Bytes([]byte) ([]byte, error) }) string {
		b, err := e.Bytes([]byte(text))
		require.NoError(t, err)
		return string(b)
	}
	for name, bytes := range map[string]string{
		"UTF-8":                          text,
		"UTF-8 with a mark":              "\xef\xbb\xbf" + text,
		"UTF-16 little end":              encoded(unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder()),
		"UTF-16 big end":                 encoded(unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder()),
		"UTF-16 little end, unmarked":    encoded(unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM).NewEncoder()),
		"UTF-16 big end, unmarked":       encoded(unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM).NewEncoder()),
		"Latin-1, or Windows-1252 of it": encoded(charmap.ISO8859_1.NewEncoder()),
	} {
		t.Run(name, func(t *testing.T) {
			items := readText(t, bytes)
			require.Len(t, items, 1)
			assert.Equal(t, "Ä", items[0].Message.GetItemNumber())
			assert.Equal(t, wanted, figures(items[0]))
		})
	}
}

func TestHowAFileWasReadIsSaid(t *testing.T) {
	r, err := intake.Open("-", strings.NewReader("Nr;Q (l/min);H;Colour\nA;0;3,5;red\n"), nil)
	require.NoError(t, err)
	said := strings.Join(r.Reads(), "\n")
	for _, want := range []string{"semicolons", "decimal commas", `column "Q (l/min)" is flow_l_per_h, turned into it by times 60`, `column "H" is head_m (in m, since no unit is given)`, `column "Colour" is not read`} {
		assert.Contains(t, said, want)
	}
	r, err = intake.Open("-", strings.NewReader("x,y,z\nA,50,3\n"), map[string]string{"item_number": "x", "flow (l/min)": "y", "head_m": "z"})
	require.NoError(t, err)
	assert.Contains(t, strings.Join(r.Reads(), "\n"), `column "y" is flow_l_per_h, turned into it by times 60 (as you said)`)
	assert.Equal(t, [][3]float64{{3000, 3, 0}}, figures(read(t, r, nil)[0]))
}

func TestWhatCannotBeReadIsRefusedClearly(t *testing.T) {
	for text, want := range map[string]string{
		"":                                  "is empty",
		"\n\n":                              "is empty",
		"colour,shape\nred,round\n":         "no flows and heads can be made out",
		"item,flow (gph),head\nA,1,2\n":     "is not clear: a UK gallon",
		"item,flow (buckets),head\nA,1,2\n": "the unit \"buckets\" is not known",
		"item,flow,q,head\nA,1,2,3\n":       "both read as",
		"item;flow;head\nA;1,5;2.5\n":       "with a decimal comma (1) and with a decimal point (1)",
		"PK\x03\x04\x00\x00\x14\x00":        "bytes of zero",
	} {
		_, err := intake.Open("-", strings.NewReader(text), nil)
		assert.ErrorContains(t, err, want, "%q", text)
	}
	r, err := intake.Open("-", strings.NewReader("item,flow,head\nA,0,3\n\"A,1,2\n"), nil)
	require.NoError(t, err)
	_, err = r.Next()
	assert.ErrorContains(t, err, "a quote is not closed")
	r, err = intake.Open("-", strings.NewReader("item,flow,head\n"+strings.Repeat("A,0,3\n", 20000)+"\xff,1,2\n"), nil)
	require.NoError(t, err)
	for err == nil {
		_, err = r.Next()
	}
	assert.ErrorContains(t, err, "line 20002 has letters that are not UTF-8")
}

// A cell that cannot be read is told by row and column, and the rest of the file is read.
func TestCellsThatAreWrongAreTold(t *testing.T) {
	items := readText(t, "item,flow,head\nA,0,3\nA,about 9,2\nA,\"1,200\",1\nB,0,1-2\nB,5,0\nC,1.2E3,−1\n")
	require.Len(t, items, 3)
	require.Len(t, items[0].Problems, 2)
	assert.Equal(t, `row 3, column flow: "about 9" is not a number: write the number alone, without unit or currency`, items[0].Problems[0].String())
	assert.Nil(t, items[0].Message.GetPump().GetCurve()[1].FlowLPerH)
	assert.Equal(t, 5, items[1].Row)
	assert.Len(t, items[1].Problems, 1)
	assert.Equal(t, [][3]float64{{1200, -1, 0}}, figures(items[2]))
}

// endless is a row that goes on and on.
type endless struct{ left int }

func (e *endless) Read(p []byte) (int, error) {
	if e.left <= 0 {
		return 0, io.EOF
	}
	n := min(len(p), e.left)
	for i := range n {
		p[i] = '7'
	}
	e.left -= n
	return n, nil
}

// A gigabyte without a line break is refused after a megabyte, in CSV, in quotes and in JSON.
func TestARowWithoutEndIsRefusedInLittleMemory(t *testing.T) {
	for name, begin := range map[string]string{"CSV": "item,flow,head\nA,", "quoted": "item,flow,head\n\"A", "header": "item,flow,", "JSON": `{"item_number":"`} {
		rest := &endless{left: 1 << 30}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		r, err := intake.Open("-", io.MultiReader(strings.NewReader(begin), rest), nil)
		if err == nil {
			_, err = r.Next()
		}
		runtime.ReadMemStats(&after)
		assert.ErrorContains(t, err, "longer than a million bytes", name)
		assert.Greater(t, rest.left, 1<<29, "%s: most of it was never read", name)
		assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(64<<20), name)
	}
}

func TestWorkbooksAndFolders(t *testing.T) {
	book := excelize.NewFile()
	for i, row := range [][]any{{"Item", "Flow (L/h)", "Head (m)"}, {"A", 0, 3}, {"A", 1200, 2.25}, {"A", 3000, 0}} {
		at, err := excelize.CoordinatesToCellName(1, i+1)
		require.NoError(t, err)
		require.NoError(t, book.SetSheetRow("Sheet1", at, &row))
	}
	path := filepath.Join(t.TempDir(), "curves.xlsx")
	require.NoError(t, book.SaveAs(path))
	r, err := intake.Open(path, nil, nil)
	items := read(t, r, err)
	require.Len(t, items, 1)
	assert.Equal(t, wanted, figures(items[0]))

	r, err = intake.Open("../../../testdata/catalogues/demo", nil, nil)
	items = read(t, r, err)
	assert.Greater(t, len(items), 30)
	assert.NotZero(t, items[0].Message.GetPump().GetLabelFlowLPerH(), "pumps.csv is joined")

	whole, err := os.ReadFile(path)
	require.NoError(t, err)
	cut := filepath.Join(t.TempDir(), "cut.xlsx")
	require.NoError(t, os.WriteFile(cut, whole[:len(whole)/2], 0o600))
	_, err = intake.Open(cut, nil, nil)
	assert.ErrorContains(t, err, "is not an xlsx workbook that can be read")
}

func TestACorrectedCopyChangesWhatItMustAndNothingElse(t *testing.T) {
	for name, test := range map[string]struct{ before, after string }{
		"rows of points": {"Nr;Q (l/min);H (m);Note\nA;50;0;x\nA;0;3,5;y\nB;1;2;z\n", "Nr;Q (l/min);H (m);Note\nA;0;3,5;x\nA;20;1,25;y\nB;1;2;z\n"},
		"columns":        {"item,q1,h1,q2,h2,q3,h3,left\nA,9,9,9,9,9,9,x\nB,1,2,3,1,,,y\n", "item,q1,h1,q2,h2,q3,h3,left\nA,0,3.5,1200,1.25,,,x\nB,1,2,3,1,,,y\n"},
		"one cell":       {"item,points\nA,\"9,9; 9,9\"\n", "item,points\nA,\"0,3.5; 1200,1.25\"\n"},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "curves.csv")
			require.NoError(t, os.WriteFile(path, []byte(test.before), 0o600))
			to := intake.CorrectedPath(path)
			assert.Equal(t, "curves.corrected.csv", filepath.Base(to))
			at := func(x float64) *float64 { return &x }
			mended := map[int]*equipmentv1.Pump{0: {Curve: []*equipmentv1.CurvePoint{{FlowLPerH: at(0), HeadM: at(3.5)}, {FlowLPerH: at(1200), HeadM: at(1.25)}}}}
			left, err := intake.WriteCorrected(path, to, nil, mended)
			require.NoError(t, err)
			assert.Empty(t, left)
			got, err := os.ReadFile(to)
			require.NoError(t, err)
			assert.Equal(t, test.after, string(got))
			_, err = intake.WriteCorrected(path, to, nil, mended)
			assert.ErrorContains(t, err, "nothing is written over")
			original, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, test.before, string(original))
		})
	}
}

// Whatever the bytes are, reading ends, and neither panics nor gives more curves than there are lines.
func FuzzText(f *testing.F) {
	for _, seed := range []string{
		"item,flow,head\nA,0,3\nA,1200,2.25\n", "Nr;Q (l/min);H\nA;0;3,5\n", "item,points\nA,\"0,3; 1200,2.25\"\n", "item,0 m,1 m\nA,3,2\n",
		"\xff\xfeA\x00,\x00", "{\"item_number\":\"A\"}\n", "q1,h1,q2,h2\n1,2,3,4\n", "\xef\xbb\xbfflow,head\n1,2\n", "item,flow,head\n\"A,1,2\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		r, err := intake.Open("-", bytes.NewReader(text), nil)
		if err != nil {
			return
		}
		for n := 0; ; n++ {
			item, err := r.Next()
			if err != nil {
				return
			}
			require.NotNil(t, item.Message)
			require.LessOrEqual(t, n, len(text)+1)
		}
	})
}
