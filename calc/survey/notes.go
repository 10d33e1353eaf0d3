package survey

import (
	"fmt"
	"strings"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// ReadNotes reads a survey as it is written down on site, one measurement a line, each length in the unit it was read in:
//
//	two pegs, 6.00 m              the distance of the pegs
//	3.4 m, 12 ft 3 in             from peg A, from peg B
//	3.1 m, 4.2 m, right           on the right of the line from A to B
//
//	string line
//	0 m, 40 cm, 1 ft 2 in         along the string, left, right
//
//	running ties, 4 m             from point 0 to point 1
//	0-1, 5 m, 3 m                 the next point, from points 0 and 1
//
//	points                        a straight-sided outline; "smooth points" for a curved one
//	1.2 m, 3 ft                   along x and y
//
// A line "check 0-4, 3.2 m" proves a survey, "in feet" (or metres, centimetres, millimetres, yards, inches) says what the bare
// numbers after it are, and what follows a # is for the reader. Errors are input.Errors without a field that say the line.
func ReadNotes(t *working.Trail, text string) (Surveyed, error) {
	n := notes{}
	for i, line := range strings.Split(text, "\n") {
		line, _, _ = strings.Cut(line, "#")
		if line = strings.TrimSpace(line); line != "" {
			n.number = i + 1
			n.read(strings.ToLower(line))
		}
	}
	if n.method == "" && len(n.errs) == 0 {
		n.errs.Add("", asMethod, "the notes do not say how the survey was made")
	}
	if len(n.errs) > 0 {
		return Surveyed{}, n.errs
	}
	s, err := n.survey(t)
	if err != nil {
		return Surveyed{}, n.inNotes(err)
	}
	found, err := s.Prove(n.checks)
	if err != nil {
		return Surveyed{}, n.inNotes(err)
	}
	s.Findings = append(s.Findings, found...)
	return s, nil
}

const asMethod = `begin with "two pegs, 6 m", "string line", "running ties, 4 m", "points" or "smooth points"`

// notes are what was read so far.
type notes struct {
	errs    input.Errors
	number  int // of the line
	assumed *scale

	method  string
	base    unit.Length
	shots   []Shot
	ties    []Tie
	offsets []Offset
	points  []outline.Point
	checks  []CheckTape
	lines   []int // of each measurement but the base and the checks
	tested  []int // of each check
}

func (n *notes) wrong(change, problem string, args ...any) {
	n.errs.Add("", change, "line %d: "+problem, append([]any{n.number}, args...)...)
}

// read takes in one line that is not empty.
func (n *notes) read(line string) {
	fields := strings.Split(line, ",")
	for i := range fields {
		fields[i] = strings.Join(strings.Fields(fields[i]), " ")
	}
	if name, found := strings.CutPrefix(line, "in "); found {
		n.unit(strings.TrimSpace(name))
		return
	}
	if pair, found := strings.CutPrefix(fields[0], "check "); found {
		if lengths, ok := n.lengths(fields[1:], 1); ok {
			n.checks = append(n.checks, CheckTape{Measured: lengths[0]})
			n.tested = append(n.tested, n.number)
			last := &n.checks[len(n.checks)-1]
			n.pair(pair, &last.From, &last.To)
		}
		return
	}
	if n.method == "" {
		n.begin(fields)
		return
	}
	n.lines = append(n.lines, n.number)
	n.measurement(fields)
}

func (n *notes) unit(name string) {
	for _, s := range scales() {
		for _, known := range s.names {
			if name == known {
				n.assumed = &s
				return
			}
		}
	}
	n.wrong(`write "in metres", "in centimetres" or "in feet"`, "%q is no unit of length", name)
}

func (n *notes) begin(fields []string) {
	switch n.method = fields[0]; n.method {
	case "two pegs", "running ties":
		if lengths, ok := n.lengths(fields[1:], 1); ok {
			n.base = lengths[0]
		}
	case "string line", "points", "smooth points":
		n.lengths(fields[1:], 0)
	default:
		n.wrong(asMethod, "%q is no way to survey", fields[0])
	}
}

func (n *notes) measurement(fields []string) {
	switch n.method {
	case "two pegs":
		if s, ok := n.shot(fields); ok {
			n.shots = append(n.shots, s)
		}
	case "running ties":
		var tie Tie
		n.pair(fields[0], &tie.A, &tie.B)
		if s, ok := n.shot(fields[1:]); ok {
			tie.Shot = s
			n.ties = append(n.ties, tie)
		}
	case "string line":
		if l, ok := n.lengths(fields, 3); ok {
			n.offsets = append(n.offsets, Offset{Along: l[0], Left: l[1], Right: l[2]})
		}
	case "points", "smooth points":
		if l, ok := n.lengths(fields, 2); ok {
			n.points = append(n.points, outline.Point{X: l[0], Y: l[1]})
		}
	}
}

// shot reads two lengths and the side.
func (n *notes) shot(fields []string) (Shot, bool) {
	var s Shot
	if last := len(fields) - 1; last >= 0 && (fields[last] == "right" || fields[last] == "left") {
		s.Right = fields[last] == "right"
		fields = fields[:last]
	}
	lengths, ok := n.lengths(fields, 2)
	if ok {
		s.FromA, s.FromB = lengths[0], lengths[1]
	}
	return s, ok
}

// lengths reads so many lengths.
func (n *notes) lengths(fields []string, want int) ([]unit.Length, bool) {
	if len(fields) != want {
		n.wrong("separate lengths with commas", "there should be %d lengths, and there are %d", want, len(fields))
		return nil, false
	}
	ok := true
	lengths := make([]unit.Length, want)
	for i, text := range fields {
		var err error
		if lengths[i], err = parseLength(text, n.assumed); err != nil {
			ok = false
			if wrong, known := err.(input.Error); known {
				n.wrong(wrong.Change, "%s", wrong.Problem)
			}
		}
	}
	return lengths, ok
}

// pair reads "0-4".
func (n *notes) pair(text string, from, to *int) {
	if _, err := fmt.Sscanf(strings.ReplaceAll(text, " ", "")+"\n", "%d-%d\n", from, to); err != nil {
		n.wrong(`write two points as "0-4"`, "%q is no pair of points", text)
	}
}

func (n *notes) survey(t *working.Trail) (Surveyed, error) {
	switch n.method {
	case "two pegs":
		return TwoPegs(t, n.base, n.shots)
	case "running ties":
		return RunningTies(t, n.base, n.ties)
	case "string line":
		s, _, err := StringLine(t, n.offsets)
		return s, err
	case "smooth points":
		return Smooth(n.points)
	default:
		return finish(Surveyed{Outline: outline.Polygon{Points: n.points}}, nil, nil, inList("points", 0))
	}
}

// inNotes puts the line in place of the field.
func (n *notes) inNotes(err error) error {
	errs, ok := err.(input.Errors)
	if !ok {
		return err
	}
	for i, e := range errs {
		_, index, _ := strings.Cut(e.Field, "[")
		k, lines := -1, n.lines
		if strings.HasPrefix(e.Field, "checks") {
			lines = n.tested
		}
		if _, scanErr := fmt.Sscanf(index, "%d]", &k); scanErr == nil && k >= 0 && k < len(lines) {
			errs[i].Problem = fmt.Sprintf("line %d: %s", lines[k], e.Problem)
		}
		errs[i].Field = ""
	}
	return errs
}
