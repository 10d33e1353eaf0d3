package pipe

// Kind is a fitting by the name it is sold under.
type Kind int

// The fittings the engine knows.
const (
	Elbow90    Kind = iota + 1 // a hard right angle
	Bend90                     // a slow right angle, radius one and a half bores or more
	Elbow45                    // half a right angle
	TeeThrough                 // straight through a tee
	TeeBranch                  // round the corner of a tee
	BallValve                  // full bore, open
	GateValve                  // open
	CheckValve                 // swing check, wide open, which it is only above some 2.4 m/s
	HoseTail                   // hose pushed on a tail; its loss follows from the two bores
	Entry                      // flush, sharp-edged, out of still water
	Exit                       // into still water or the open air: the velocity head is lost either way

	Bend45          // half a slow right angle
	ReturnBend      // there and back, radius one bore
	Mitre90         // two pipe ends cut and joined at a right angle, without a radius
	Mitre45         // the same at half a right angle
	GlobeValve      // open
	AngleValve      // inlet and outlet at right angles, open
	AngleSeatValve  // straight through, with a slanting spindle, open
	ButterflyValve  // open
	LiftCheckValve  // lift check, wide open
	FootValve       // hinged disc and strainer at the foot of a suction line, wide open
	PoppetFootValve // the same with a spring-loaded disc
	ProjectingEntry // a plain pipe end that stands free in the water
	RoundedEntry    // flush, with a rounded edge
	SuddenChange    // a step from one bore to another
	Reducer         // a cone from one bore to another, either way
	Valve           // any valve whose flow coefficient Kv is known
)

// String is the fitting in the words of the trade.
func (k Kind) String() string {
	if k.known() {
		return rows[k].name
	}
	return "unknown fitting"
}

// HoldsBack says that a fitting has a disc or a flap that shuts against water running back.
func (k Kind) HoldsBack() bool { return k.known() && rows[k].opens > 0 }

func (k Kind) known() bool { return k > 0 && int(k) < len(rows) }

// law says how the loss coefficient of a kind follows.
type law int

const (
	byThreeK   law = iota + 1 // K₁, Kᵢ and K_d of Darby
	byTwoK                    // K₁ and K∞ of Hooper
	byLengths                 // n of the handbook TP-410, times its turbulent friction factor
	byConstant                // K itself
	byTail                    // from the bores of hose and tail
	byRadius                  // from bore and radius
	byStep                    // from two bores
	byCone                    // from two bores and an angle
	byKv                      // from bore and flow coefficient
)

// row is what is known of one kind.
type row struct {
	name      string // as in a list of parts
	one, many string // as in "1 slow bend", "3 slow bends"
	law       law
	constants [3]float64
	opens     float64  // N of the velocity that holds a check valve open; 0 where there is no disc to lift
	also      []string // other words for one, without plurals
}

// rows is the table of fittings. Entries are in the order of the kinds.
//
// Source: Darby 2001, table 7-3, and Hooper 1981, as carried by the python fluids library; projecting and flush entry, foot
// valves and opening velocities: Flow of Fluids TP-410; exit: Borda–Carnot.
var rows = [...]row{
	Elbow90:    {"elbow 90°", "elbow", "elbows", byThreeK, [3]float64{800, 0.14, 4.0}, 0, []string{"90 elbow", "right angle elbow"}},
	Bend90:     {"slow bend 90°", "slow bend", "slow bends", byThreeK, [3]float64{800, 0.071, 4.2}, 0, []string{"bend", "90 bend", "90 slow bend", "long bend"}},
	Elbow45:    {"elbow 45°", "45° elbow", "45° elbows", byThreeK, [3]float64{500, 0.071, 4.2}, 0, nil},
	TeeThrough: {"tee, straight through", "tee through", "tees through", byThreeK, [3]float64{200, 0.091, 4.0}, 0, []string{"tee straight through", "straight tee"}},
	TeeBranch:  {"tee, round the corner", "tee branch", "tee branches", byThreeK, [3]float64{500, 0.274, 4.0}, 0, []string{"tee round the corner"}},
	BallValve:  {"ball valve", "ball valve", "ball valves", byThreeK, [3]float64{300, 0.017, 3.5}, 0, nil},
	GateValve:  {"gate valve", "gate valve", "gate valves", byThreeK, [3]float64{300, 0.037, 3.9}, 0, []string{"slide valve"}},
	CheckValve: {"swing check valve", "swing check valve", "swing check valves", byThreeK, [3]float64{1500, 0.46, 4.0}, swingOpens, []string{"check valve", "non return valve", "swing check"}},
	HoseTail:   {"hose tail", "hose tail", "hose tails", byTail, [3]float64{}, 0, []string{"hosetail", "barb", "hose barb"}},
	Entry:      {"entry", "entry", "entries", byConstant, [3]float64{0.5}, 0, []string{"flush entry", "sharp entry", "inlet"}},
	Exit:       {"exit", "exit", "exits", byConstant, [3]float64{1.0}, 0, []string{"outlet"}},

	Bend45:          {"slow bend 45°", "45° slow bend", "45° slow bends", byThreeK, [3]float64{500, 0.052, 4.0}, 0, []string{"45 bend"}},
	ReturnBend:      {"return bend 180°", "return bend", "return bends", byThreeK, [3]float64{1000, 0.12, 4.0}, 0, []string{"180 bend", "u bend"}},
	Mitre90:         {"mitre 90°", "mitre", "mitres", byThreeK, [3]float64{1000, 0.27, 4.0}, 0, []string{"90 mitre", "mitred elbow"}},
	Mitre45:         {"mitre 45°", "45° mitre", "45° mitres", byThreeK, [3]float64{500, 0.086, 4.0}, 0, nil},
	GlobeValve:      {"globe valve", "globe valve", "globe valves", byThreeK, [3]float64{1500, 1.7, 3.6}, 0, []string{"stop valve", "screw down valve"}},
	AngleValve:      {"angle valve", "angle valve", "angle valves", byThreeK, [3]float64{1000, 0.69, 4.0}, 0, nil},
	AngleSeatValve:  {"angle seat valve", "angle seat valve", "angle seat valves", byThreeK, [3]float64{950, 0.25, 4.0}, 0, []string{"y valve"}},
	ButterflyValve:  {"butterfly valve", "butterfly valve", "butterfly valves", byTwoK, [3]float64{800, 0.25}, 0, nil},
	LiftCheckValve:  {"lift check valve", "lift check valve", "lift check valves", byThreeK, [3]float64{2000, 2.85, 3.8}, liftOpens, []string{"lift check"}},
	FootValve:       {"foot valve, hinged", "foot valve", "foot valves", byLengths, [3]float64{75}, footOpens, []string{"hinged foot valve"}},
	PoppetFootValve: {"foot valve, poppet", "poppet foot valve", "poppet foot valves", byLengths, [3]float64{420}, poppetOpens, []string{"spring foot valve"}},
	ProjectingEntry: {"projecting entry", "projecting entry", "projecting entries", byConstant, [3]float64{0.78}, 0, []string{"free entry", "pipe end"}},
	RoundedEntry:    {"rounded entry", "rounded entry", "rounded entries", byRadius, [3]float64{}, 0, nil},
	SuddenChange:    {"sudden change", "sudden change", "sudden changes", byStep, [3]float64{}, 0, []string{"step"}},
	Reducer:         {"reducer", "reducer", "reducers", byCone, [3]float64{}, 0, []string{"taper", "enlarger"}},
	Valve:           {"valve of known Kv", "valve", "valves", byKv, [3]float64{}, 0, nil},
}
