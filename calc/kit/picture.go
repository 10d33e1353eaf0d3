package kit

import (
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// A Picture is what pump and circuit of a set are drawn from.
type Picture struct {
	Pump, Measured, Weak, Strong []pump.Point
	Demands                      []Demand
}

// A Demand is the head that the circuit of a set asks for in one state, at flows from none on.
type Demand struct {
	State  State
	Points []pump.Point
}

// drawnPoints is how many points a line is drawn through.
const drawnPoints = 41

// picture samples the lines of a set. A demand ends where it leaves the pump's own heads well behind.
func (f *Finder) picture(set Set) Picture {
	p := f.pumps[set.Pump]
	strong := f.q.Tolerance.High(p)
	made := Picture{Pump: line(p), Weak: line(f.weak[set.Pump]), Strong: line(strong)}
	for point := range p.Measured {
		made.Measured = append(made.Measured, point)
	}
	_, last := strong.Range()
	for state := Clean; state < states; state++ {
		if state == Due && set.Filter < 0 || state == Cold && !f.q.Winter.runs() {
			continue
		}
		loop, d := f.circuit(set, state), Demand{State: state}
		for i := range drawnPoints {
			q := last * unit.Flow(float64(i)/(drawnPoints-1))
			h := loop.Demand(q, f.water(state))
			d.Points = append(d.Points, pump.Point{Flow: q, Head: h})
			if h > 3*strong.Greatest()/2 {
				break
			}
		}
		made.Demands = append(made.Demands, d)
	}
	return made
}

func line(p pump.Pump) []pump.Point {
	first, last := p.Range()
	points := make([]pump.Point, 0, drawnPoints)
	for i := range drawnPoints {
		q := first + (last-first)*unit.Flow(float64(i)/(drawnPoints-1))
		if h, ok := p.Head(q); ok {
			points = append(points, pump.Point{Flow: q, Head: h})
		}
	}
	return points
}
