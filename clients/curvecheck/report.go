package main

import (
	"bufio"
	"errors"
	"fmt"
	"html/template"
	"io"
	"math"
	"os"
	"path/filepath"
	"slices"

	"example.com/pondwright/clients/internal/chart"
	"example.com/pondwright/clients/internal/figure"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// mostPictured is how many faulty curves the page shows. A page of more is no longer read; the other forms list them all.
const mostPictured = 1000

// report is the page in the making. What was found goes to a file beside it as it comes, since what stands at the top of the page is
// known last.
type report struct {
	path   string
	body   *os.File
	out    *bufio.Writer
	shown  int
	all    int
	review []reviewed
}

type reviewed struct {
	File   string
	Review *pondwrightv1.CurveReview
}

func newReport(path string) (*report, error) {
	body, err := os.CreateTemp(filepath.Dir(path), ".curvecheck-*")
	if err != nil {
		return nil, err
	}
	return &report{path: path, body: body, out: bufio.NewWriter(body)}, nil
}

// card is one faulty curve on the page.
type card struct {
	ID, Number, File, Series string
	Row                      int
	Unread                   []string
	Defects                  []cardDefect
	Changes                  []string
	Sure                     string
	Given, Meant             template.HTML
}

type cardDefect struct{ Severity, Code, Sentence, Change, Sure string }

func (r *report) fault(f faulty) error {
	r.all++
	if r.shown == mostPictured {
		return nil
	}
	r.shown++
	c := card{ID: fmt.Sprintf("curve-%d", r.shown), Number: f.number(), File: f.file, Series: f.item.Message.GetSeries(), Row: f.item.Row}
	for _, problem := range f.item.Problems {
		c.Unread = append(c.Unread, problem.String())
	}
	for _, d := range f.found.GetDefects() {
		c.Defects = append(c.Defects, cardDefect{severityWords[d.GetSeverity()], d.GetCode(), d.GetSentence(), d.GetChange(), fmt.Sprintf("%.0f %%", 100*d.GetConfidence())})
	}
	if repair := f.found.GetRepair(); repair != nil {
		c.Changes, c.Sure = repair.GetChanges(), fmt.Sprintf("%.0f %%", 100*repair.GetConfidence())
		c.Meant = picture(c.ID+"-meant", "As probably meant", repair.GetPump(), nil)
	}
	c.Given = picture(c.ID+"-given", "As given", f.item.Message.GetPump(), f.found)
	return cardLayout.Execute(r.out, c)
}

// picture draws a curve; empty where there is nothing that can be drawn.
func picture(id, title string, p *equipmentv1.Pump, found *pondwrightv1.CurveResult) template.HTML {
	var points []chart.Point
	marks := map[int]bool{}
	for _, d := range found.GetDefects() {
		for _, e := range d.GetEvidence() {
			if e.Point != nil {
				marks[int(e.GetPoint())] = true
			}
		}
	}
	var marked []chart.Mark
	for i, c := range p.GetCurve() {
		if c.FlowLPerH == nil || c.HeadM == nil || !(math.Abs(c.GetFlowLPerH()) < 1e9) || !(math.Abs(c.GetHeadM()) < 1e9) {
			continue
		}
		at := chart.Point{X: c.GetFlowLPerH(), Y: c.GetHeadM()}
		points = append(points, at)
		if marks[i] && len(marked) < 3 {
			marked = append(marked, chart.Mark{Name: fmt.Sprintf("point %d", i+1), At: at})
		}
	}
	slices.SortStableFunc(points, func(a, b chart.Point) int {
		switch {
		case a.X < b.X:
			return -1
		case a.X > b.X:
			return 1
		}
		return 0
	})
	if len(points) < 2 || points[0].X == points[len(points)-1].X {
		return ""
	}
	drawn, err := chart.Lines{
		Title: title, X: chart.Axis{Name: "flow", Unit: "L/h"}, Y: chart.Axis{Name: "head", Unit: "m"},
		Lines: []chart.Line{{Name: "head", Points: points, Measured: true}}, Marks: marked, Width: 300, Height: 180,
	}.Draw()
	if err != nil {
		return "" // the findings say what is wrong with numbers that cannot be drawn
	}
	made, err := drawn.Figure(id)
	if err != nil {
		return ""
	}
	return made
}

func (r *report) end(file string, review *pondwrightv1.CurveReview) {
	r.review = append(r.review, reviewed{file, review})
}

// close writes the page, where all went well, and takes the file beside it away.
func (r *report) close(well bool) (err error) {
	defer func() { err = errors.Join(err, r.body.Close(), os.Remove(r.body.Name())) }()
	if !well {
		return nil
	}
	if err := r.out.Flush(); err != nil {
		return err
	}
	if _, err := r.body.Seek(0, io.SeekStart); err != nil {
		return err
	}
	page, err := os.Create(r.path)
	if err != nil {
		return inputError{err}
	}
	out := bufio.NewWriter(page)
	err = errors.Join(headLayout.Execute(out, r), copied(out, r.body), tailLayout.Execute(out, r), out.Flush(), page.Close())
	return err
}

func copied(to io.Writer, from io.Reader) error {
	_, err := io.Copy(to, from)
	return err
}

// What the page's head says of the whole.
func (r *report) Shown() int            { return r.shown }
func (r *report) More() int             { return r.all - r.shown }
func (r *report) Reviews() []reviewed   { return r.review }
func (v reviewed) Gaps() string         { return gapWords(v.Review.GetCoverage()) }
func (v reviewed) Count(n int32) string { return figure.Count(n) }

// Spread draws a distribution.
func (v reviewed) Spread(name, unit string, d *pondwrightv1.CurveDistribution, id string) template.HTML {
	if d.GetCurveCount() < 2 {
		return ""
	}
	bins := d.GetBins()
	for len(bins) > 24 { // bars that can be read
		var pairs []*pondwrightv1.CurveBin
		for i := 0; i < len(bins); i += 2 {
			b := &pondwrightv1.CurveBin{From: bins[i].GetFrom(), Below: bins[i].GetBelow(), CurveCount: bins[i].GetCurveCount()}
			if i+1 < len(bins) {
				b.Below, b.CurveCount = bins[i+1].GetBelow(), b.CurveCount+bins[i+1].GetCurveCount()
			}
			pairs = append(pairs, b)
		}
		bins = pairs
	}
	bars := chart.Bars{
		Title: name + ", and how many curves have it", Series: []string{""},
		Sentence: fmt.Sprintf("Half of the %s curves lie between %.3g and %.3g%s, the middle one at %.3g.", figure.Count(d.GetCurveCount()),
			d.GetLowerQuartile(), d.GetUpperQuartile(), unit, d.GetMedian()),
	}
	for _, b := range bins {
		bars.Rows = append(bars.Rows, chart.Row{Name: fmt.Sprintf("%.3g to %.3g%s", b.GetFrom(), b.GetBelow(), unit), Values: []float64{float64(b.GetCurveCount())}})
	}
	drawn, err := bars.Draw()
	if err != nil {
		return ""
	}
	made, err := drawn.Figure(id)
	if err != nil {
		return ""
	}
	return made
}
