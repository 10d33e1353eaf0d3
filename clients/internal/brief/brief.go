// Package brief reads a brief, a YAML or JSON file in the form of the API's own message, and says of every mistake in it
// where it stands and what to change.
//
// Reading is strict: a key that is not a field, a unit that is not the field's, a value that cannot be, and whatever of
// YAML would let one line mean another (anchors, tags, merged blocks) are refused by name, all of them at once.
package brief

import (
	"github.com/goccy/go-yaml/ast"
	"google.golang.org/protobuf/reflect/protoreflect"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// Read reads the text of a brief. Name is the file's, for the messages. The error is a *Problems that holds everything
// found wrong; the positions are given with and without one. A block of the whole job is held to its rules and left out.
func Read(name string, text []byte) (*pondwrightv1.Brief, *Positions, error) {
	j, at, err := ReadJob(name, text)
	return j.GetBrief(), at, err
}

// ReadJob reads a brief with all that a whole job asks for besides, which stands in a block of its own, job.
func ReadJob(name string, text []byte) (*pondwrightv1.JobBrief, *Positions, error) {
	j := &pondwrightv1.JobBrief{Brief: &pondwrightv1.Brief{}}
	at, err := decode(name, text, j.GetBrief().ProtoReflect(), func(r *reader, root ast.Node) func() {
		job := r.takeJob(root)
		return func() { r.job(job, j) }
	})
	if err != nil {
		return nil, at, err
	}
	return j, at, nil
}

// decode fills the message from the text and holds it against the rules written in its proto. What takes a part out of the file first
// gives what is done with it in the end; it may be nil.
func decode(name string, text []byte, into protoreflect.Message, take func(*reader, ast.Node) func()) (*Positions, error) {
	r := &reader{
		root:   into.Descriptor(),
		at:     &Positions{file: name, of: map[string]Position{}},
		spoken: map[string]bool{},
	}
	r.at.of[""] = top
	if root := r.parse(text); root != nil {
		r.at.of[""] = start(root)
		rest := func() {}
		if take != nil {
			rest = take(r, root)
		}
		r.message("", root, into)
		r.rules(into)
		rest()
	}
	return r.at, r.report()
}

// A reader is one reading of one file.
type reader struct {
	root     protoreflect.MessageDescriptor
	under    string // path of the root in the file: nothing, or that of the job
	at       *Positions
	problems []Problem
	// spoken holds the fields already complained of, which the rules need not complain of again.
	spoken map[string]bool
}

// say notes a problem with a field.
func (r *reader) say(at Position, field, wrong, change string) {
	r.spoken[field] = true
	r.problems = append(r.problems, Problem{Position: at, Field: field, Wrong: wrong, Change: change})
}

func (r *reader) report() error {
	if len(r.problems) == 0 {
		return nil
	}
	return newProblems(r.at.file, r.problems)
}
