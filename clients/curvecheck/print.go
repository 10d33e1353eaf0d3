package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"

	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/clients/curvecheck/intake"
	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// a faulty curve is one with a finding, or with a cell that could not be read.
type faulty struct {
	file  string
	item  intake.Item
	place int
	found *pondwrightv1.CurveResult // nil where only cells could not be read
}

// number is what the curve is called.
func (f faulty) number() string {
	if n := f.item.Message.GetItemNumber(); n != "" {
		return n
	}
	return fmt.Sprintf("row %d", f.item.Row)
}

// a printer prints findings as they come, and at the end the review.
type printer interface {
	fault(f faulty) error
	end(file string, review *pondwrightv1.CurveReview) error
}

func newPrinter(form string, out io.Writer) printer {
	switch form {
	case "csv":
		return &csvPrinter{out: csv.NewWriter(out)}
	case "jsonl":
		return linePrinter{out}
	}
	return &textPrinter{out: out}
}

var severityWords = map[pondwrightv1.Severity]string{
	pondwrightv1.Severity_SEVERITY_NOTE: "note", pondwrightv1.Severity_SEVERITY_CAUTION: "caution", pondwrightv1.Severity_SEVERITY_STOP: "stop",
}

// textPrinter is for people.
type textPrinter struct{ out io.Writer }

func (p *textPrinter) fault(f faulty) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, row %d", page.Clean(f.number()), f.item.Row)
	if s := f.item.Message.GetSeries(); s != "" {
		fmt.Fprintf(&b, ", series %s", page.Clean(s))
	}
	b.WriteString("\n")
	for _, problem := range f.item.Problems {
		fmt.Fprintf(&b, "  %-8s%s\n", "unread", page.Clean(problem.String()))
	}
	for _, d := range f.found.GetDefects() {
		fmt.Fprintf(&b, "  %-8s%s (%s, %.0f %% sure)\n", severityWords[d.GetSeverity()], page.Clean(d.GetSentence()), d.GetCode(), 100*d.GetConfidence())
		fmt.Fprintf(&b, "          → %s.\n", page.Clean(d.GetChange()))
	}
	if r := f.found.GetRepair(); r != nil {
		fmt.Fprintf(&b, "  meant   %s (%.0f %% sure)\n", page.Clean(strings.Join(r.GetChanges(), "; ")), 100*r.GetConfidence())
	}
	_, err := io.WriteString(p.out, b.String()+"\n")
	return err
}

func (p *textPrinter) end(file string, r *pondwrightv1.CurveReview) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %s curves, %s sound; %s with a stop, %s with a caution, %s with a note\n", page.Clean(file),
		figure.Number(float64(r.GetCurveCount())), figure.Number(float64(r.GetSoundCount())), figure.Number(float64(r.GetStopCount())),
		figure.Number(float64(r.GetCautionCount())), figure.Number(float64(r.GetNoteCount())))
	for _, d := range r.GetDefects() {
		fmt.Fprintf(&b, "  %8d  %s\n", d.GetCurveCount(), d.GetCode())
	}
	for _, d := range []struct {
		name, unit string
		of         *pondwrightv1.CurveDistribution
	}{{"efficiency", " %", r.GetEfficiencyPercent()}, {"specific speed", "", r.GetSpecificSpeed()}} {
		if n := d.of.GetCurveCount(); n > 0 {
			fmt.Fprintf(&b, "  %s of %d curves: %.3g to %.3g%s, half of them %.3g to %.3g, in the middle %.3g\n", d.name, n,
				d.of.GetLeast(), d.of.GetGreatest(), d.unit, d.of.GetLowerQuartile(), d.of.GetUpperQuartile(), d.of.GetMedian())
		}
	}
	for i, o := range r.GetOutliers() {
		if i == 10 {
			fmt.Fprintf(&b, "  and %d more unlike their neighbours\n", len(r.GetOutliers())-i)
			break
		}
		fmt.Fprintf(&b, "  unlike its neighbours: %s, %s %.3g where %.3g is usual\n", page.Clean(o.GetItemNumber()), o.GetFigure(), o.GetValue(), o.GetMedian())
	}
	if gaps := gapWords(r.GetCoverage()); gaps != "" {
		fmt.Fprintf(&b, "  duties without a pump: %s\n", gaps)
	}
	_, err := io.WriteString(p.out, b.String())
	return err
}

// gapWords lists duties that no pump is for.
func gapWords(c *pondwrightv1.CurveCoverage) string {
	const most = 8
	var told []string
	n := 0
	for _, d := range c.GetDuties() {
		if d.GetGap() {
			if n++; n <= most {
				told = append(told, fmt.Sprintf("%s L/h at %.2g m", figure.Number(d.GetFlowLPerH()), d.GetHeadM()))
			}
		}
	}
	if n > most {
		told = append(told, fmt.Sprintf("and %d more", n-most))
	}
	return strings.Join(told, ", ")
}

// csvPrinter writes a row for each finding.
type csvPrinter struct {
	out   *csv.Writer
	begun bool
}

func (p *csvPrinter) head() {
	if !p.begun {
		p.begun = true
		p.out.Write([]string{"file", "row", "place", "item_number", "severity", "code", "confidence", "sentence", "change", "repair"})
	}
}

func (p *csvPrinter) fault(f faulty) error {
	p.head()
	begin := []string{f.file, strconv.Itoa(f.item.Row), strconv.Itoa(f.place), harmless(f.item.Message.GetItemNumber())}
	for _, problem := range f.item.Problems {
		p.out.Write(append(begin[:4:4], "unread", "CELL_NOT_READ", "1", harmless(problem.String()), "", ""))
	}
	for _, d := range f.found.GetDefects() {
		repair := ""
		for _, code := range f.found.GetRepair().GetMendedCodes() {
			if code == d.GetCode() {
				repair = strings.Join(f.found.GetRepair().GetChanges(), "; ")
			}
		}
		p.out.Write(append(begin[:4:4], severityWords[d.GetSeverity()], d.GetCode(), strconv.FormatFloat(d.GetConfidence(), 'f', 2, 64), harmless(d.GetSentence()), d.GetChange(), repair))
	}
	p.out.Flush()
	return p.out.Error()
}

// harmless keeps a spreadsheet from taking a text for a formula.
func harmless(text string) string {
	if text != "" && strings.ContainsRune("=+-@\t\r", rune(text[0])) {
		return "'" + text
	}
	return text
}

func (p *csvPrinter) end(string, *pondwrightv1.CurveReview) error {
	p.head()
	p.out.Flush()
	return p.out.Error()
}

// linePrinter writes the engine's answer, a JSON object a line, and the review last.
type linePrinter struct{ out io.Writer }

// line is one object: the file, what could not be read of it, and a message of the engine's.
type line struct {
	File   string          `json:"file"`
	Row    int             `json:"row,omitempty"`
	Unread []string        `json:"unread,omitempty"`
	Result json.RawMessage `json:"result,omitempty"`
	Review json.RawMessage `json:"review,omitempty"`
}

func (p linePrinter) write(l line) error {
	text, err := json.Marshal(l)
	if err == nil {
		_, err = fmt.Fprintf(p.out, "%s\n", text)
	}
	return err
}

func (p linePrinter) fault(f faulty) error {
	l := line{File: f.file, Row: f.item.Row}
	for _, problem := range f.item.Problems {
		l.Unread = append(l.Unread, problem.String())
	}
	if f.found != nil {
		var err error
		if l.Result, err = inJSON(f.found); err != nil {
			return err
		}
	}
	return p.write(l)
}

func (p linePrinter) end(file string, review *pondwrightv1.CurveReview) error {
	text, err := inJSON(review)
	if err != nil {
		return err
	}
	return p.write(line{File: file, Review: text})
}

func inJSON(m proto.Message) (json.RawMessage, error) {
	return protojson.MarshalOptions{UseProtoNames: true}.Marshal(m)
}
