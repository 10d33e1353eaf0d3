package drawing

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/pondwright/clients/internal/figure"
)

// Section is a bay cut along its length, seen from the side. Heights are from the water line, up above 0.
type Section struct {
	Title string
	// Length at the water line.
	Length float64
	// Depth at the deepest.
	Depth float64
	// Bank of both ends, from the water line inwards and down.
	Bank []BankPoint
	// Mean says that the bank is not that of any one place but the mean of all.
	Mean bool
	// Freeboard from the water up to the rim.
	Freeboard float64
	// Raised is how far the rim stands out of the ground. 0 where the pond is sunk.
	Raised float64
	// Pump says where its intake is, in summer. Left out, none is drawn.
	Pump *Intake
	// WinterPump is where it is in winter. Left out, none is drawn.
	WinterPump *Intake
	// Fall from its lip down to the water, step by step from the top. Empty without one.
	Fall []float64
	// Outlet above the water, of a pipe, where there is no fall. Left out, none is drawn.
	Outlet *float64
}

// An Intake is where a pump draws.
type Intake struct {
	Depth float64
	Words string
}

// Draw makes the drawing.
func (s Section) Draw() (Drawing, error) {
	if s.Length <= 0 || s.Depth <= 0 {
		return Drawing{}, fmt.Errorf("drawing %q: %w", s.Title, ErrNothing)
	}
	numbers := append([]float64{s.Length, s.Depth, s.Freeboard, s.Raised}, s.Fall...)
	for _, b := range s.Bank {
		numbers = append(numbers, b.Run, b.Depth)
	}
	if err := finite(s.Title, numbers...); err != nil {
		return Drawing{}, err
	}
	c := s.cut()
	p := &paper{}
	s.ground(p, c)
	s.pond(p, c)
	s.above(p, c)
	s.pumps(p, c)
	bottom := s.levels(p, c)
	note := fmt.Sprintf("Scale 1 : %s on paper, printed at 100%s%%.", figure.Number(c.scale), figure.Space)
	if c.taller > 1 {
		note = fmt.Sprintf("Lengths 1 : %s, heights 1 : %s, printed at 100%s%%.", figure.Number(c.scale), figure.Number(c.scale/c.taller), figure.Space)
	}
	p.bar(marginLeft, bottom+2, c.scale, note)
	return Drawing{Title: s.Title, Sentence: s.sentence(c), Table: s.table(), Scale: c.scale, width: roomWide + 4, height: bottom + 9, body: p.b.String()}, nil
}

const (
	groundWide  = 14.0 // of the ground shown beside the water, mm
	levelsWide  = 24.0 // for the levels on the right, mm
	leastDeep   = 15.0 // of the water on paper, mm: below that heights are enlarged
	fallWide    = 30.0 // for a fall on the right, mm
	fallTread   = 6.0  // of one step of it, mm
	aboveFree   = 6.0  // kept clear above all, mm
	mostEnlarge = 10.0
)

// A cut turns metres of a section into millimetres of paper.
type cut struct {
	scale, taller float64
	left, water   float64 // of the left end of the water, and of the water line
	profile       []Point // under water: x from the left end, y down, m
}

func (s Section) cut() cut {
	side := groundWide
	if s.top() > 0 {
		side = fallWide
	}
	wide := roomWide - marginLeft - groundWide - side - levelsWide + 8
	c := cut{scale: scaleFor(s.Length, s.Depth+s.highest(), wide, roomHigh-60), taller: 1, profile: s.profile()}
	for _, more := range []float64{2, 5, mostEnlarge} {
		if s.Depth*1000/c.scale*c.taller < leastDeep && (s.Depth+s.highest())*1000/c.scale*more <= roomHigh-60 {
			c.taller = more
		}
	}
	c.left = marginLeft + groundWide
	c.water = aboveFree + line + s.highest()*1000/c.scale*c.taller
	return c
}

// top of the fall or the outlet above the water; 0 without.
func (s Section) top() float64 {
	top := 0.0
	for _, drop := range s.Fall {
		top += drop
	}
	if s.Outlet != nil {
		top = max(top, *s.Outlet)
	}
	return top
}

func (s Section) highest() float64 { return max(s.top(), s.Freeboard) }

// at is a place on paper: x from the left end of the water, height above the water.
func (c cut) at(x, height float64) Point {
	return Point{c.left + x*1000/c.scale, c.water - height*1000/c.scale*c.taller}
}

// profile is the ground under water from the left end to the right, as far as the sides leave a floor between them.
func (s Section) profile() []Point {
	bank := s.Bank
	if len(bank) < 2 {
		bank = []BankPoint{{}, {Depth: s.Depth}}
	}
	var left, right []Point
	for _, b := range bank {
		run := min(b.Run, s.Length/2)
		left = append(left, Point{run, b.Depth})
		right = append(right, Point{s.Length - run, b.Depth})
	}
	slices.Reverse(right)
	return append(left, right...)
}

func (s Section) profileOnPaper(c cut) []Point {
	made := make([]Point, len(c.profile))
	for i, q := range c.profile {
		made[i] = c.at(q.X, -q.Y)
	}
	return made
}

// rims are the two ends of the lining above the water.
func (s Section) rims(c cut) (left, right Point) {
	return c.at(0, s.Freeboard), c.at(s.Length, s.Freeboard)
}

func (s Section) ground(p *paper, c cut) {
	left, right := s.rims(c)
	surface := c.at(0, s.Freeboard-s.Raised).Y
	under := c.at(0, -s.Depth).Y + 7
	ends := []Point{{left.X - groundWide, under}, {left.X - groundWide, surface}, {left.X, surface}, left}
	ends = append(ends, s.profileOnPaper(c)...)
	far := groundWide
	if s.top() > 0 {
		far = fallWide
	}
	ends = append(ends, right, Point{right.X, surface}, Point{right.X + far, surface}, Point{right.X + far, under})
	p.shape("ground", ends, true, fmt.Sprintf(`fill="%s"`, earth))
	for _, x := range []float64{left.X - groundWide, right.X} {
		wide := groundWide
		if x == right.X {
			wide = far
		}
		p.line("surface", x, surface, x+wide, surface, medium, ink, "")
	}
}

func (s Section) pond(p *paper, c cut) {
	under := s.profileOnPaper(c)
	p.shape("water", under, true, fmt.Sprintf(`fill="%s"`, tint(0.25*s.Depth, s.Depth)))
	left, right := s.rims(c)
	lining := append(append([]Point{{left.X - 4, left.Y}, left}, under...), right, Point{right.X + 4, right.Y})
	p.shape("lining", lining, false, fmt.Sprintf(`stroke="%s" stroke-width="%s" stroke-linejoin="round"`, ink, mm(thick)))
	a, b := c.at(0, 0), c.at(s.Length, 0)
	p.line("waterline", a.X, a.Y, b.X, b.Y, medium, ink, "")
	x := a.X + 0.14*(b.X-a.X)
	p.put(`<path class="level" d="M%s %sl-1.6 -2.6h3.2Z" stroke="%s" stroke-width="%s"/>`+"\n", mm(x), mm(a.Y), ink, mm(medium))
}

// above draws what brings the water back: a fall at the right end, or a pipe.
func (s Section) above(p *paper, c cut) {
	x, height := c.at(s.Length, 0).X, 0.0
	if len(s.Fall) > 0 {
		stairs := []Point{{x, c.at(0, s.Freeboard).Y}}
		for _, drop := range slices.Backward(s.Fall) {
			height += drop
			y := c.at(0, height).Y
			stairs = append(stairs, Point{x, y}, Point{x + fallTread, y})
			x += fallTread
		}
		foot := c.at(0, s.Freeboard-s.Raised).Y
		shape := append(slices.Clone(stairs), Point{x, foot}, Point{stairs[0].X, foot})
		p.shape("fall", shape, true, fmt.Sprintf(`fill="#d3ccbc" stroke="%s" stroke-width="%s" stroke-linejoin="round"`, ink, mm(medium)))
	} else if s.Outlet != nil {
		height = *s.Outlet
		y := c.at(0, height).Y
		p.put(`<path class="outlet" d="M%s %sh8v1.6h-8Z" fill="#ffffff" stroke="%s" stroke-width="%s"/>`+"\n", mm(x-3), mm(y-0.8), ink, mm(medium))
		x += 5
	}
	if height > 0 {
		at := x + 4
		p.upright("dimension fall", at+3, c.water, c.at(0, height).Y, "")
		p.line("witness", c.at(s.Length, 0).X, c.water, at+4.5, c.water, fine, grey, "1 1")
		p.text(at+4.4, (c.water+c.at(0, height).Y)/2+1.1, "start", figure.Fixed(height, 2)+figure.Space+"m", false)
	}
}

// pumps draws where water is drawn, in summer and in winter.
func (s Section) pumps(p *paper, c cut) {
	floor := c.profile[len(c.profile)/2-1].X
	room := s.Length - 2*floor
	draw := func(in *Intake, x float64, dashes string) {
		if in == nil {
			return
		}
		at := c.at(x, -in.Depth)
		p.put(`<rect class="pump" x="%s" y="%s" width="5" height="3" fill="#ffffff" stroke="%s" stroke-width="%s"%s/>`+"\n",
			mm(at.X-2.5), mm(at.Y-1.5), ink, mm(medium), dashes)
		p.halo(at.X+4, at.Y+1.1, "start", in.Words)
	}
	draw(s.Pump, floor+0.2*room, "")
	draw(s.WinterPump, floor+0.55*room, ` stroke-dasharray="1 0.6"`)
}

// levels are told at the left of the water, with the length below, and gives where the drawing ends.
func (s Section) levels(p *paper, c cut) float64 {
	a, b := c.at(0, 0), c.at(s.Length, 0)
	bottom := c.at(0, -s.Depth).Y
	x := marginLeft - 2
	// The rim and the water may be so near that their figures would touch.
	last := math.Inf(-1)
	for _, l := range s.named() {
		y := c.at(0, l.height).Y
		p.line("witness", x+1.5, y, c.left-1, y, fine, grey, "1 1")
		at := max(y+1.1, last+3.7)
		p.text(x+1, at, "end", l.said, false)
		last = at
	}
	p.upright("dimension depth", c.left+0.32*(b.X-a.X), a.Y, bottom, "")
	p.halo(c.left+0.32*(b.X-a.X)+1.4, (a.Y+bottom)/2+1.1, "start", figure.Fixed(s.Depth, 2)+figure.Space+"m")
	y := bottom + 13
	p.across("dimension length", a.X, b.X, y, figure.Fixed(s.Length, 2)+figure.Space+"m at the water line")
	p.line("witness", a.X, a.Y+1, a.X, y+1.5, fine, grey, "1 1")
	p.line("witness", b.X, b.Y+1, b.X, y+1.5, fine, grey, "1 1")
	end := y + 4
	if c.taller > 1 {
		p.text(marginLeft, y+6, "start", fmt.Sprintf("Heights are drawn %s times as large as lengths, or they could not be read.", figure.Number(c.taller)), false)
		end += line + 1
	}
	return end
}

type named struct {
	height float64
	name   string
	said   string
}

// named are the levels from the rim down.
func (s Section) named() []named {
	var made []named
	add := func(height float64, name string) {
		said := "0"
		if height != 0 {
			said = figure.Fixed(math.Abs(height), 2)
			said = map[bool]string{true: "+", false: "−"}[height > 0] + said
		}
		made = append(made, named{height, name, said})
	}
	if s.Freeboard > 0 {
		add(s.Freeboard, "rim")
	}
	add(0, "water line")
	for i, b := range s.Bank {
		if i > 0 && b.Depth == s.Bank[i-1].Depth && b.Depth < s.Depth && b.Depth > 0 {
			add(-b.Depth, "shelf")
		}
	}
	add(-s.Depth, "deepest floor")
	return made
}

func (s Section) sentence(c cut) string {
	said := fmt.Sprintf("Cut along its length, at 1 to %s: %s long at the water line and %s deep, with the rim %s above the water.", figure.Number(c.scale),
		figure.With(s.Length, "m"), figure.With(s.Depth, "m"), figure.With(s.Freeboard, "m"))
	if c.taller > 1 {
		said += fmt.Sprintf(" Heights are drawn %s times as large.", figure.Number(c.taller))
	}
	if s.Mean {
		said += " The sides are drawn as the mean of all, from the area at each depth; no one place looks just so."
	}
	if n := len(s.Bank); n > 0 && s.Bank[n-1].Run > 0 && !s.Mean {
		said += " The sides are drawn square to the edge: towards a pointed end the floor is shorter than it is drawn."
	}
	switch {
	case len(s.Fall) > 0:
		said += fmt.Sprintf(" The fall comes from %s above the water; it is drawn at one end, and where it stands along the edge was not given.", figure.With(s.top(), "m"))
	case s.Outlet != nil && *s.Outlet > 0:
		said += fmt.Sprintf(" The water comes back through a pipe that ends %s above the water.", figure.With(*s.Outlet, "m"))
	case s.Outlet != nil:
		said += " The water comes back through a pipe that ends under water."
	}
	var pumps []string
	for _, in := range []*Intake{s.Pump, s.WinterPump} {
		if in != nil {
			pumps = append(pumps, fmt.Sprintf("%s: %s under the water line", in.Words, figure.With(in.Depth, "m")))
		}
	}
	if len(pumps) > 0 {
		said += " " + strings.ToUpper(pumps[0][:1]) + strings.Join(pumps, "; ")[1:] + ". Where along the pond was not given."
	}
	return said
}

func (s Section) table() Table {
	t := Table{Caption: "Levels from the water line", Head: []string{"What", "level, m"}}
	for _, l := range s.named() {
		t.Rows = append(t.Rows, []string{l.name, l.said})
	}
	return t
}
