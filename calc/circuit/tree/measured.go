package tree

// How says how a number of the description was come by, which is how far it may be off.
type How int

// The ways, surest first.
const (
	Taped   How = iota // with a tape, a level or a calliper; the zero value
	Label              // from a box, a label or a drawing
	Paced              // stepped out, or held against something known
	Guessed            // by eye
)

// String is the way in plain words.
func (h How) String() string {
	return [...]string{"taped", "box figure", "paced", "guessed"}[h.known()]
}

func (h How) known() How {
	if h < Taped || h > Guessed {
		return Guessed
	}
	return h
}

// A margin is half the width of a number: a part of it, and not less than so much.
type margin struct {
	part  float64
	least float64 // m
}

func (m margin) of(x float64) float64 { return max(m.part*x, -m.part*x, m.least) }

// Half widths by how a number was come by. Chosen for this engine; a source for how well people pace out gardens was not
// found.
var (
	lengthMargin = [...]margin{Taped: {0.01, 0.01}, Label: {0.02, 0.01}, Paced: {0.10, 0.2}, Guessed: {0.25, 0.5}}
	levelMargin  = [...]margin{Taped: {0, 0.02}, Label: {0.05, 0.02}, Paced: {0.10, 0.05}, Guessed: {0.25, 0.15}}
	boreMargin   = [...]margin{Taped: {0, 0.25e-3}, Label: {0.03, 0.5e-3}, Paced: {0.08, 1e-3}, Guessed: {0.10, 2e-3}}
	deviceMargin = [...]margin{Taped: {0.10, 0}, Label: {0.25, 0}, Paced: {0.5, 0}, Guessed: {0.5, 0}}
)

const (
	// fittingMargin is how far published loss coefficients of one fitting lie apart, either way of their middle: four
	// handbooks on elbows, bends and tees of 25 mm.
	fittingMargin = 0.25
	// roughnessMargin is ln 3: the roughness of plastic in use is known to a factor of three either way.
	roughnessMargin = 1.0986122886681098
)

// Sureness says how the numbers of a circuit were come by. A hose or branch that is not named is Taped, and a bore or a
// device that is not named is a Label's. Where a hose brings limits of its bore or roughness, they are its width.
type Sureness struct {
	Lengths map[string]How // by hose
	Bores   map[string]How // by hose
	Levels  map[string]How // by branch
	Devices map[string]How // by device or valve
}

func (s Sureness) bore(hose string) How {
	if h, ok := s.Bores[hose]; ok {
		return h.known()
	}
	return Label
}

func (s Sureness) device(name string) How {
	if h, ok := s.Devices[name]; ok {
		return h.known()
	}
	return Label
}
