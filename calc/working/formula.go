// Package working is the audit trail: formulas that know their name and source, and the record of those that were used.
//
// A formula is a pure function of one flat struct of quantities. It never sees a recorder. A chain runs it through its
// Formula, which keeps input and result when somebody wants the workings and costs one comparison when nobody does:
//
//	loss := pipe.FrictionLoss.Run(trail, pipe.FrictionLossInput{Length: l, Bore: d, Velocity: v, Factor: f})
//
// What is recorded is what was used, so any step can be run again from its own record; see Step.Replay.
package working

import (
	"fmt"

	"example.com/pondwright/calc/source"
)

// A Formula is a named, sourced, pure function.
//
// In is a struct whose exported fields are quantities of package unit, float64, int or bool, each with a `sym` tag that
// gives its symbol in Equation. Out is a quantity, a float64, or such a struct.
type Formula[In, Out any] struct {
	ID       string // package and name: "pipe.friction-loss"
	Name     string // in plain words: "head lost to friction"
	Equation string // in the symbols of the tags
	Symbol   string // of the result, where Out is no struct
	Source   source.Source
	// Outside says in which way the input lies outside the range the source claims, or nothing inside it. Nil where
	// the range is the whole domain.
	Outside func(In) string
	Eval    func(In) Out
}

// Run evaluates the formula and, where the trail is not nil, records the step.
func (f *Formula[In, Out]) Run(t *Trail, in In) Out {
	out := f.Eval(in)
	if t != nil {
		t.steps = append(t.steps, Step{Entry: f, in: in, out: out, subject: t.subject})
	}
	return out
}

// An Entry is a formula without its types, as a registry or a reader of the trail sees it.
type Entry interface {
	Describe() Description
	// ReplayValues evaluates the formula from recorded values, matched by symbol.
	ReplayValues(in []Value) ([]Value, error)

	values(in, out any) (ins, outs []Value)
	outside(in any) string
	eval(in any) any
}

// A Description is what a formula says of itself.
type Description struct {
	ID, Name, Equation string
	Source             source.Source
}

// Describe tells the formula's name, equation and source.
func (f *Formula[In, Out]) Describe() Description {
	return Description{ID: f.ID, Name: f.Name, Equation: f.Equation, Source: f.Source}
}

// ReplayValues evaluates the formula from recorded values, matched by symbol. It fails when a symbol is missing or unknown.
func (f *Formula[In, Out]) ReplayValues(in []Value) ([]Value, error) {
	var typed In
	if err := fill(&typed, in); err != nil {
		return nil, fmt.Errorf("replay %s: %w", f.ID, err)
	}
	_, outs := f.values(typed, f.Eval(typed))
	return outs, nil
}

func (f *Formula[In, Out]) values(in, out any) (ins, outs []Value) {
	return valuesOf(in, ""), valuesOf(out, f.Symbol)
}

func (f *Formula[In, Out]) outside(in any) string {
	if f.Outside == nil {
		return ""
	}
	return f.Outside(in.(In))
}

func (f *Formula[In, Out]) eval(in any) any { return f.Eval(in.(In)) }
