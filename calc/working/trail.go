package working

// A Trail collects the steps of one calculation in order. A nil *Trail is a calculation nobody asked the workings of.
// A Trail is not safe for concurrent use.
type Trail struct {
	steps   []Step
	subject string
}

// About names what the following steps are about, such as one running state of one kit. It does nothing on a nil trail.
func (t *Trail) About(subject string) {
	if t != nil {
		t.subject = subject
	}
}

// Steps are the steps so far.
func (t *Trail) Steps() []Step {
	if t == nil {
		return nil
	}
	return t.steps
}

// A Step is one formula as it was used.
type Step struct {
	Entry   Entry
	in, out any
	subject string
}

// Subject is what the step is about, as set by Trail.About.
func (s Step) Subject() string { return s.subject }

// Values are the step's input and result as numbers with symbol and unit.
func (s Step) Values() (in, out []Value) { return s.Entry.values(s.in, s.out) }

// Outside says in which way the input lay outside the range the formula's source claims; empty inside it.
func (s Step) Outside() string { return s.Entry.outside(s.in) }

// Replay runs the step again from its own record and says whether the result is the same to the last bit.
func (s Step) Replay() bool { return s.Entry.eval(s.in) == s.out }
