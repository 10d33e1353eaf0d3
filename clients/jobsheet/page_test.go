package main

import (
	"bytes"
	"encoding/csv"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/net/html"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/reflect/protoreflect"

	"example.com/pondwright/clients/jobsheet/leaf"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// pages are the sheets of the six demonstration briefs, as the program writes them.
func pages(t *testing.T) map[string]sheetFiles {
	t.Helper()
	briefs, err := filepath.Glob("../../testdata/briefs/*.yaml")
	require.NoError(t, err)
	require.Len(t, briefs, 6)
	made := map[string]sheetFiles{}
	for _, file := range briefs {
		made[strings.TrimSuffix(filepath.Base(file), ".yaml")] = sheetOf(t, file)
	}
	return made
}

type sheetFiles struct {
	page, list []byte
	plan       *pondwrightv1.PlanJobResponse
}

func sheetOf(t *testing.T, brief string) sheetFiles {
	t.Helper()
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	var out, errs bytes.Buffer
	code := run(t.Context(), []string{"--page", at("job.html"), "--plan", at("job.json"), "--quantities", at("job.csv"), brief},
		env{Out: &out, Err: &errs, Width: 80, Embed: embed})
	require.Equal(t, exitFeasible, code, errs.String())
	assert.Contains(t, out.String(), "THE JOB IN FIGURES")
	var s sheetFiles
	var err error
	s.page, err = os.ReadFile(at("job.html"))
	require.NoError(t, err)
	s.list, err = os.ReadFile(at("job.csv"))
	require.NoError(t, err)
	text, err := os.ReadFile(at("job.json"))
	require.NoError(t, err)
	s.plan = &pondwrightv1.PlanJobResponse{}
	require.NoError(t, protojson.Unmarshal(text, s.plan))
	return s
}

func TestSheetsOfTheDemoPonds(t *testing.T) {
	for name, s := range pages(t) {
		t.Run(name, func(t *testing.T) {
			again, err := leaf.Page(s.plan)
			require.NoError(t, err)
			assert.Equal(t, string(s.page), string(again), "the plan that was kept makes the same page")
			valid(t, s.page)
			whole(t, s)
			toScale(t, s)
			quantitiesAdd(t, s)
		})
	}
}

// svgUnknown are the attributes of SVG 2 in HTML that tidy, which knows those of HTML alone, has no list of.
var svgUnknown = regexp.MustCompile(`<svg> (proprietary attribute|attribute "(width|height)" has invalid value "[\d.]+mm")|<title> proprietary attribute "id"`)

// Reference: HTML Living Standard as checked by HTML Tidy (Debian package tidy), and its rules on unique ids, headings and links
// walked with golang.org/x/net/html.
func valid(t *testing.T, page []byte) {
	t.Helper()
	if tidy, err := exec.LookPath("tidy"); err == nil {
		cmd := exec.Command(tidy, "-q", "-e", "--drop-empty-elements", "no")
		cmd.Stdin = bytes.NewReader(page)
		said, _ := cmd.CombinedOutput() // which ends with 1 where it warns
		for line := range strings.Lines(string(said)) {
			if !svgUnknown.MatchString(line) {
				t.Error(line)
			}
		}
	} else if os.Getenv("PONDWRIGHT_CROSSCHECK") == "required" {
		t.Fatal("tidy is not installed: apt-get install tidy")
	}
	root, err := html.Parse(bytes.NewReader(page))
	require.NoError(t, err)
	ids, level, tops := map[string]bool{}, 0, 0
	var refers []string
	for n := range root.Descendants() {
		if n.Type != html.ElementNode {
			continue
		}
		for _, a := range n.Attr {
			switch a.Key {
			case "id":
				assert.False(t, ids[a.Val], "id %s stands twice", a.Val)
				ids[a.Val] = true
			case "href":
				require.True(t, strings.HasPrefix(a.Val, "#"), "nothing leads away: %s", a.Val)
				refers = append(refers, a.Val[1:])
			case "aria-labelledby":
				refers = append(refers, strings.Fields(a.Val)...)
			case "src", "style", "onload", "onclick":
				t.Errorf("a page that stands by itself has no %s", a.Key)
			}
		}
		assert.NotContains(t, []string{"script", "link", "img", "iframe", "object"}, n.Data)
		if len(n.Data) == 2 && n.Data[0] == 'h' && n.Data[1] >= '1' && n.Data[1] <= '6' {
			now := int(n.Data[1] - '0')
			assert.LessOrEqual(t, now, level+1, "a heading of level %d follows one of level %d", now, level)
			level = now
			if now == 1 {
				tops++
			}
		}
	}
	assert.Equal(t, 1, tops)
	for _, id := range refers {
		assert.True(t, ids[id], "nothing is called %s", id)
	}
}

// whole holds what a sheet must have on it: what the trade hands over, and the wording that is on every one.
func whole(t *testing.T, s sheetFiles) {
	t.Helper()
	text := html.UnescapeString(string(s.page))
	for _, words := range []string{
		"Estimate from the inputs shown; measure on site before buying or digging.", "Any depth of water can drown a child.",
		"Dose by label on measured volume; for sick fish see a vet.", "Not a design for dams", "Invented data for demonstration",
		"Plan and section", "Water left as the level falls", "Pump and circuit in each state", "Where the head goes", "Order of work",
		"Load list for the electrician", "For the owner of the pond", "What to do if", "Appendix: the workings", "Sources of the workings",
		"The year", s.plan.GetAnswerDigest(),
	} {
		assert.Contains(t, text, words)
	}
	for _, f := range everyFinding(s.plan.ProtoReflect()) {
		assert.Contains(t, text, strings.TrimSuffix(f.GetSentence(), ".")[1:], "no finding is lost: %s", f.GetCode())
	}
	for _, task := range s.plan.GetWork().GetTasks() {
		assert.Contains(t, text, task.GetName())
	}
	if len(s.plan.GetFiltration().GetStocking()) > 0 {
		assert.Contains(t, text, "A new filter ripens")
		assert.Contains(t, text, "Oxygen on the warmest night")
	}
	assert.NotContains(t, text, "NaN")
	assert.NotContains(t, text, "not a number")
}

// everyFinding of a message, wherever it stands.
func everyFinding(m protoreflect.Message) (all []*pondwrightv1.Finding) {
	if f, ok := m.Interface().(*pondwrightv1.Finding); ok {
		return []*pondwrightv1.Finding{f}
	}
	m.Range(func(fd protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		switch {
		case fd.Message() == nil || fd.IsMap():
		case fd.IsList():
			for i := range v.List().Len() {
				all = append(all, everyFinding(v.List().Get(i).Message())...)
			}
		default:
			all = append(all, everyFinding(v.Message())...)
		}
		return true
	})
	return all
}

var (
	scaledSVG = regexp.MustCompile(`(?s)<svg xmlns="http://www.w3.org/2000/svg" width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)".*?</svg>`)
	scaleSaid = regexp.MustCompile(`Scale 1 : ([\d,]+) on paper`)
	lengthsAt = regexp.MustCompile(`Lengths 1 : ([\d,]+), heights 1 : ([\d,.]+),`)
	edgePath  = regexp.MustCompile(`<path class="edge" d="([^"]*)"`)
	bandPath  = regexp.MustCompile(`<path class="band" d="[^"]*" stroke="[^"]*" stroke-width="([\d.]+)"`)
	lining    = regexp.MustCompile(`<path class="lining" d="([^"]*)"`)
	dimension = regexp.MustCompile(`<line class="dimension (\w+)" x1="([\d.-]+)" y1="([\d.-]+)" x2="([\d.-]+)" y2="([\d.-]+)"`)
	anyNumber = regexp.MustCompile(`-?[\d.]+`)
)

func numberOf(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", ""), 64)
	require.NoError(t, err)
	return x
}

func pointsOf(t *testing.T, data string) [][2]float64 {
	t.Helper()
	var made [][2]float64
	all := anyNumber.FindAllString(data, -1)
	for i := 0; i+1 < len(all); i += 2 {
		made = append(made, [2]float64{numberOf(t, all[i]), numberOf(t, all[i+1])})
	}
	return made
}

// toScale measures the drawings as a scale rule would. Coordinates are written to 0.01 mm, so that each end of a length may be off by
// 0.005 mm in x and in y: √2 · 0.01 mm together, times the scale.
func toScale(t *testing.T, s sheetFiles) {
	t.Helper()
	drawings := scaledSVG.FindAllStringSubmatch(string(s.page), -1)
	bays := s.plan.GetWater().GetDrawings()
	require.Len(t, drawings, 2*len(bays), "a plan and a section of each bay")
	for i, bay := range bays {
		plan, section := drawings[2*i], drawings[2*i+1]
		for _, d := range [][]string{plan, section} {
			assert.Equal(t, d[1:3], d[3:5], "one unit is a millimetre")
			assert.LessOrEqual(t, numberOf(t, d[1]), 180.0, "fits between the margins of A4 and Letter")
			assert.LessOrEqual(t, numberOf(t, d[2]), 245.0, "fits on a page of Letter")
		}
		scale := numberOf(t, scaleSaid.FindStringSubmatch(plan[0])[1]) / 1000 // metres of pond in a millimetre
		off := math.Sqrt2 * 0.01 * scale
		edge := pointsOf(t, edgePath.FindStringSubmatch(plan[0])[1])
		require.Len(t, edge, len(bay.GetOutline()))
		for a := range edge {
			for b := range a {
				drawn := math.Hypot(edge[a][0]-edge[b][0], edge[a][1]-edge[b][1]) * scale
				p, q := bay.GetOutline()[a], bay.GetOutline()[b]
				assert.InDelta(t, math.Hypot(p.GetXM()-q.GetXM(), p.GetYM()-q.GetYM()), drawn, off, "from corner %d to %d", a+1, b+1)
			}
		}
		// Bands reach as far inwards as half their stroke: a width is written to 0.01 mm too.
		var runs []float64
		for j := len(bay.GetBank()) - 1; j > 0; j-- {
			if bay.GetBank()[j].GetRunM() > bay.GetBank()[j-1].GetRunM() {
				runs = append(runs, bay.GetBank()[j].GetRunM())
			}
		}
		bands := bandPath.FindAllStringSubmatch(plan[0], -1)
		require.Len(t, bands, len(runs))
		for j, band := range bands {
			assert.InDelta(t, runs[j], numberOf(t, band[1])/2*scale, 0.005*scale)
		}
		along, upright := scale, scale
		if said := lengthsAt.FindStringSubmatch(section[0]); said != nil {
			along, upright = numberOf(t, said[1])/1000, numberOf(t, said[2])/1000
		} else {
			along = numberOf(t, scaleSaid.FindStringSubmatch(section[0])[1]) / 1000
			upright = along
		}
		measured := map[string]float64{}
		for _, d := range dimension.FindAllStringSubmatch(section[0], -1) {
			x1, y1, x2, y2 := numberOf(t, d[2]), numberOf(t, d[3]), numberOf(t, d[4]), numberOf(t, d[5])
			measured[d[1]] = math.Abs(x2-x1)*along + math.Abs(y2-y1)*upright
		}
		assert.InDelta(t, bay.GetLengthM(), measured["length"], 0.01*along)
		assert.InDelta(t, bay.GetDepthM(), measured["depth"], 0.01*upright)
		if fall := s.plan.GetAsked().GetJob().GetBrief().GetFall(); fall != nil && i == 0 {
			assert.InDelta(t, fall.GetHeightM(), measured["fall"], 0.01*upright)
		}
		// The lining lies on the bank: its first corners under water are those of the bank, from the rim on.
		ground := pointsOf(t, lining.FindStringSubmatch(section[0])[1])
		if len(bay.GetBank()) > 1 {
			water := ground[2] // after the overlap and the rim comes the water line
			for j, b := range bay.GetBank() {
				assert.InDelta(t, b.GetRunM(), (ground[2+j][0]-water[0])*along, 0.01*along)
				assert.InDelta(t, b.GetDepthM(), (ground[2+j][1]-water[1])*upright, 0.01*upright)
			}
		}
	}
}

// Reference: RFC 4180, as encoding/csv reads it. The numbers are those of the plan, to six digits.
func quantitiesAdd(t *testing.T, s sheetFiles) {
	t.Helper()
	r := csv.NewReader(bytes.NewReader(s.list))
	head, err := r.Read()
	require.NoError(t, err)
	assert.Equal(t, []string{"what", "quantity", "unit", "note"}, head)
	listed := map[string]float64{}
	for {
		row, err := r.Read()
		if err == io.EOF {
			break
		}
		require.NoError(t, err)
		listed[row[0]] += numberOf(t, row[1])
	}
	for _, q := range s.plan.GetQuantities().GetLines() {
		assert.Contains(t, listed, q.GetName())
	}
	k := s.plan.GetKit().GetKit()
	assert.InDelta(t, k.GetHoseLengthM(), listed["hose "+k.GetHose().GetItem().GetItemNumber()], 0)
	assert.InDelta(t, 1, listed["pump "+k.GetPump().GetItem().GetItemNumber()], 0)
}

// What a catalogue or a brief says is text on the page, whatever it looks like.
func TestNothingFromOutsideBecomesMarkup(t *testing.T) {
	s := sheetOf(t, "../../testdata/briefs/koi.yaml")
	evil := `</style></title><script>alert(1)</script><img src=x onerror=alert(1)>` + "\x1b[2J\u202e"
	s.plan.Asked.Job.Brief.Title = evil
	s.plan.Water.Drawings[0].Bay = evil
	s.plan.Kit.Kit.Pump.Item.Description = evil
	s.plan.Kit.Curves[0].State = evil
	s.plan.Cautions[0].Sentence = evil
	s.plan.Provenance.Catalogues[0].Notice = evil
	s.plan.Workings[0].Equation = evil
	page, err := leaf.Page(s.plan)
	require.NoError(t, err)
	for _, part := range []string{"<script", "<img", "\x1b", "\u202e"} {
		assert.NotContains(t, string(page), part)
	}
	valid(t, page)
}

// A plan without its parts makes a page without them, and no part is needed by another.
func TestAPageOfAnyPart(t *testing.T) {
	s := sheetOf(t, "../../testdata/briefs/cascade.yaml")
	fields := s.plan.ProtoReflect().Descriptor().Fields()
	for i := range fields.Len() {
		one := &pondwrightv1.PlanJobResponse{Asked: s.plan.GetAsked()}
		fd := fields.Get(i)
		if !s.plan.ProtoReflect().Has(fd) {
			continue
		}
		one.ProtoReflect().Set(fd, s.plan.ProtoReflect().Get(fd))
		page, err := leaf.Page(one)
		require.NoError(t, err, fd.Name())
		valid(t, page)
	}
	page, err := leaf.Page(&pondwrightv1.PlanJobResponse{})
	require.NoError(t, err)
	valid(t, page)
}
