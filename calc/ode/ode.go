// Package ode carries a system of ordinary differential equations forward in time with control of its own error.
//
// The method is the explicit Runge–Kutta pair of order 5(4) of Dormand & Prince 1980 with the step control and the
// interpolant of Hairer, Nørsett & Wanner, Solving Ordinary Differential Equations I, 1993, sections II.4 to II.6 (both
// from memory). It suits smooth systems that are not stiff: a pond's fastest process takes minutes, its run weeks. At a
// jump of the right-hand side, such as a load step, end one solution and begin the next.
package ode

import (
	"errors"
	"fmt"
	"math"
)

// A System gives the rates of change dy at time t and state y. It must not keep or change y.
type System func(t float64, y, dy []float64)

// A Tolerance is the error one step may make in each component: Absolute + Relative·|y|.
type Tolerance struct{ Relative, Absolute float64 }

// ErrStepTooSmall means that the error could not be kept within the tolerance: a jump, a singularity or a stiff system.
var ErrStepTooSmall = errors.New("ode: step too small to go on")

// ErrTooManySteps means that the system is far faster than the span asked for.
var ErrTooManySteps = errors.New("ode: too many steps")

const mostSteps = 1_000_000

// Solve carries y in place from one time to a later one. It calls observe, where that is not nil, after each step it
// accepts; the Step is good only during the call, and an error ends the solution there. On an error y holds the state that
// was reached.
func Solve(f System, y []float64, from, to float64, tol Tolerance, observe func(*Step) error) error {
	if !(to >= from) || math.IsInf(to-from, 0) {
		return fmt.Errorf("ode: cannot go from %g to %g", from, to)
	}
	if !(tol.Relative > 0) || !(tol.Absolute > 0) {
		return errors.New("ode: tolerances must be positive")
	}
	if to == from {
		return nil
	}
	return newStepper(f, y, from, tol).run(y, to, observe)
}

// run steps until the end. lastError is the error of the step before, which the controller leans on.
func (s *stepper) run(y []float64, end float64, observe func(*Step) error) error {
	h, lastError := s.firstStep(end-s.step.From), 1e-4
	for range mostSteps {
		last := s.step.From+1.01*h >= end
		if last {
			h = end - s.step.From
		}
		if h <= 4*math.Abs(s.step.From)*epsilon || h == 0 {
			return ErrStepTooSmall
		}
		e := s.try(h)
		if !(e <= 1) { // too large, or not a number
			h *= shrink(e)
			continue
		}
		copy(y, s.step.end)
		if last {
			s.step.To = end
		}
		if observe != nil {
			if err := observe(&s.step); err != nil {
				return err
			}
		}
		if last {
			return nil
		}
		h *= grow(e, lastError)
		lastError = max(e, 1e-4)
		s.advance()
	}
	return ErrTooManySteps
}

const epsilon = 0x1p-52

// shrink and grow are the proportional-integral controller of Hairer, Nørsett & Wanner with β = 0.04.
func shrink(e float64) float64 {
	if math.IsNaN(e) || math.IsInf(e, 1) {
		return 0.2
	}
	return max(0.2, 0.9*math.Pow(e, -0.17))
}

func grow(e, before float64) float64 {
	e = max(e, 1e-10)
	return min(10, max(0.2, 0.9*math.Pow(e, -0.17)*math.Pow(before, 0.04)))
}
