package leaf

// commissioning is what is measured when it first runs, with room to write down what was found.
func (l *leaf) commissioning() (part, error) {
	p := part{ID: "commissioning", Title: "When it first runs: measure and write down"}
	t := columns("Checks", "Check", "How", ">expected", ">from", ">to", "Found")
	for _, c := range l.plan.GetHandover().GetChecks() {
		t.row(c.GetName(), sentence(c.GetHow()), quantity(c.GetExpected()), quantity(c.GetLow()), quantity(c.GetHigh()), "………")
	}
	p.Blocks = t.block("")
	return p, nil
}
