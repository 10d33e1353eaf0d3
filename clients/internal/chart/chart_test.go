package chart

import (
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An invented pump that gives 4 m at no flow and nothing at 4000 L/h, in a straight line, on circuits that ask for 1 m and
// for 2 m at any flow: they meet at 3000 and at 2000 L/h.
func straight() PumpAndCircuit {
	return PumpAndCircuit{
		Title: "Pump against circuit", FlowUnit: "L/h", HeadUnit: "m",
		Pump: []Point{{0, 4}, {4000, 0}}, Measured: []Point{{0, 4}, {4000, 0}},
		Weak: []Point{{0, 3.8}, {3800, 0}}, Strong: []Point{{0, 4.2}, {4200, 0}},
		Demands: []Line{{Name: "filter clean", Points: []Point{{0, 1}, {4000, 1}}}, {Name: "filter due", Points: []Point{{0, 2}, {4000, 2}}}},
		Duties:  []Mark{{"filter clean", Point{3000, 1}}, {"filter due", Point{2000, 2}}}, WantedLeast: 1500, WantedMost: 3500,
	}
}

func heads() Bars {
	return Bars{Title: "Where the head goes", Unit: "m", Series: []string{"clean", "due"}, Rows: []Row{
		{"lift", []float64{1, 1}}, {"hose, 5 m", []float64{0.5, 0.25}}, {"filter <new>", []float64{0, 2}},
	}}
}

func year() Lines {
	var points, low, high []Point
	for day := range 365 {
		at := float64(day)
		points = append(points, Point{at, at / 10})
		low, high = append(low, Point{at, at/10 - 1}), append(high, Point{at, at/10 + 1})
	}
	return Lines{
		Title: "The year", X: Axis{Name: "day", Ticks: []Tick{{0, "Jan"}, {181, "Jul"}}}, Y: Axis{Name: "water", Unit: "°C"},
		Lines: []Line{{Name: "water", Points: points, Low: low, High: high}}, Limits: []Limit{{"limit", 8}}, Spans: []Span{{"frost", 300, 0}},
	}
}

func spark() Spark {
	return Spark{Title: "Curve", Sentence: "Rises at 2.", Points: []Point{{0, 4}, {1, 3}, {2, 3.5}}, Faulty: []Point{{2, 3.5}}}
}

func all(t *testing.T) map[string]Picture {
	t.Helper()
	made := map[string]Picture{}
	for name, draw := range map[string]func() (Picture, error){
		"duty": straight().Draw, "bars": heads().Draw, "lines": year().Draw, "spark": spark().Draw,
	} {
		p, err := draw()
		require.NoError(t, err, name)
		made[name] = p
	}
	return made
}

// Reference: SVG 2, section 5.8 (title and desc) and WAI-ARIA 1.2 (role img with a name); Content Security Policy Level 3, where
// style-src governs style attributes and not attributes of presentation.
func TestPicturesAreNamedAndPassAStrictPolicy(t *testing.T) {
	for name, p := range all(t) {
		svg := string(p.SVG("one"))
		assert.NotContains(t, svg, "style=", name)
		assert.NotContains(t, svg, "#000000", name, "the ink is that of the text around it")
		assert.Contains(t, svg, `role="img" aria-labelledby="one-title one-desc"`, name)
		assert.Contains(t, svg, `<title id="one-title">`+p.Title+`</title>`, name)
		assert.NotEmpty(t, p.Sentence, name)
		assert.NotEmpty(t, p.Table.Rows, name)
		decoder := xml.NewDecoder(strings.NewReader(svg))
		for {
			_, err := decoder.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			require.NoError(t, err, name)
		}
	}
}

func TestTheSamePictureIsTheSameBytes(t *testing.T) {
	first := all(t)
	for name, again := range all(t) {
		assert.Equal(t, first[name], again, name)
	}
}

func TestWordsFromOutsideAreEscaped(t *testing.T) {
	p, err := Bars{Title: `<script>alert("x")</script>`, Series: []string{""}, Rows: []Row{{`<b onload="x">`, []float64{1}}}}.Draw()
	require.NoError(t, err)
	figure, err := p.Figure(`"><i>`)
	require.NoError(t, err)
	for _, tag := range []string{"<script", "<b ", "<i>"} {
		assert.NotContains(t, string(figure), tag)
	}
}

var bar = regexp.MustCompile(`<path d="M([\d.]+),[\d.]+L([\d.]+),[\d.]+L[\d.]+,[\d.]+L[\d.]+,[\d.]+L[\d.]+,[\d.]+" fill="none"`)

// A bar is as long as its figure: 1 and 1, 0.5 and 0.25, and nothing against 2 which is the longest.
func TestBarsAreAsLongAsTheirFigures(t *testing.T) {
	p := all(t)["bars"]
	var long []float64
	for _, found := range bar.FindAllStringSubmatch(p.body, -1) {
		from, _ := strconv.ParseFloat(found[1], 64)
		to, _ := strconv.ParseFloat(found[2], 64)
		long = append(long, to-from)
	}
	require.Len(t, long, 8, "six bars and two samples in the key")
	unit := long[0]
	for i, want := range []float64{1, 1, 0.5, 0.25, 0, 2} {
		assert.InDelta(t, want*unit, long[i], 0.6, "bar %d; the thinnest is half a unit wide so that it is seen", i)
	}
	assert.Equal(t, [][]string{{"lift", "1", "1"}, {"hose, 5 m", "0.5", "0.25"}, {"filter <new>", "0", "2"}}, p.Table.Rows)
}

var circle = regexp.MustCompile(`<path d="M([\d.]+),([\d.]+)A4.2`)

// The mark of a duty stands where its figures say, on the straight line of the pump: A is three quarters along, and the line has
// three quarters of its fall behind it.
func TestDutiesStandWhereTheirFiguresSay(t *testing.T) {
	p := all(t)["duty"]
	assert.Equal(t, "Pump and circuit meet at 3,000\u00a0L/h at 1\u00a0m (filter clean), 2,000\u00a0L/h at 2\u00a0m (filter due). "+
		"Wanted are 1,500 to 3,500\u00a0L/h.", p.Sentence)
	assert.Equal(t, []string{"filter clean", "3,000", "1"}, p.Table.Rows[0])
	found := circle.FindStringSubmatch(p.body)
	require.NotNil(t, found)
	x, _ := strconv.ParseFloat(found[1], 64)
	y, _ := strconv.ParseFloat(found[2], 64)
	line := regexp.MustCompile(`<path d="M([\d.]+),([\d.]+)L([\d.]+),([\d.]+)" fill="none" stroke="currentColor" stroke-width="2.4"`).FindStringSubmatch(p.body)
	require.NotNil(t, line)
	var at [4]float64
	for i := range at {
		at[i], _ = strconv.ParseFloat(line[i+1], 64)
	}
	assert.InDelta(t, at[0]+0.75*(at[2]-at[0]), x-4.2, 0.01, "the path of a circle begins one radius to its right")
	assert.InDelta(t, at[1]+0.75*(at[3]-at[1]), y, 0.01)
}

func TestLongTablesAreThinnedAndSaySo(t *testing.T) {
	p := all(t)["lines"]
	assert.Len(t, p.Table.Rows, mostRows)
	assert.Equal(t, "Jan", p.Table.Rows[0][0])
	assert.Equal(t, "13 of 365 rows.", p.Table.Note)
	assert.Contains(t, p.Sentence, "Water goes from 0\u00a0°C at Jan to 36.4\u00a0°C at 364.")
}

func TestWhatCannotBeDrawnIsRefused(t *testing.T) {
	_, err := Lines{Title: "x", Lines: []Line{{Points: []Point{{0, math.NaN()}}}}}.Draw()
	require.ErrorContains(t, err, "cannot be drawn")
	_, err = Lines{Title: "x", Lines: []Line{{Points: []Point{{1, 0}, {0, 0}}}}}.Draw()
	require.ErrorContains(t, err, "from left to right")
	_, err = Lines{Title: "x"}.Draw()
	require.ErrorIs(t, err, ErrNothing)
	_, err = Bars{Title: "x", Series: []string{"a"}, Rows: []Row{{"r", []float64{-1}}}}.Draw()
	require.ErrorContains(t, err, "below 0")
	_, err = Bars{Title: "x", Series: []string{"a"}, Rows: []Row{{"r", []float64{1, 2}}}}.Draw()
	require.ErrorContains(t, err, "2 amounts for 1 series")
	_, err = PumpAndCircuit{Title: "x"}.Draw()
	require.ErrorIs(t, err, ErrNothing)
	_, err = Spark{Title: "x", Points: []Point{{0, 1}}}.Draw()
	require.ErrorIs(t, err, ErrNothing)
	one, err := Spark{Title: "x", Sentence: "One point.", Points: []Point{{0, 1}}}.Draw()
	require.NoError(t, err)
	assert.NotEmpty(t, one.body)
}
