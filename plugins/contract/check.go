package contract

import (
	"errors"
	"fmt"

	"buf.build/go/protovalidate"
	"google.golang.org/protobuf/proto"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Checker says what is wrong with an item: the rules written in its proto, and those of physics and order that cannot be
// written there. Build one and pass it on: it compiles the rules of a message the first time it sees one, and may be used
// from many goroutines.
type Checker struct {
	rules protovalidate.Validator
}

// NewChecker makes a Checker.
func NewChecker() (*Checker, error) {
	rules, err := protovalidate.New()
	if err != nil {
		return nil, fmt.Errorf("building the item checks: %w", err)
	}
	return &Checker{rules: rules}, nil
}

// Check lists everything wrong with an item, or nothing. What a box prints is not held against an item here, however far it
// is from the curve: that is a finding for the person who buys, not a reason to refuse.
func (c *Checker) Check(item *equipmentv1.Item) []Problem {
	problems := c.checkMessage(item)
	if item.GetKind() == nil {
		for i := range problems {
			if problems[i].Field == "kind" {
				problems[i].Reason = "none given, or one newer than this engine"
			}
		}
	}
	if len(problems) > 0 {
		return problems // order and physics make no sense of numbers that are out of bounds
	}
	switch kind := item.GetKind().(type) {
	case *equipmentv1.Item_Pump:
		return checkPump(kind.Pump)
	case *equipmentv1.Item_LampUnit:
		return checkLampUnit(kind.LampUnit)
	}
	return nil
}

// CheckDescription lists everything wrong with what a catalogue says of itself.
func (c *Checker) CheckDescription(d *cataloguev1.DescribeResponse) []Problem {
	return c.checkMessage(d)
}

// checkMessage applies the rules of the proto, and refuses every number that is not one, ruled or not.
func (c *Checker) checkMessage(m proto.Message) []Problem {
	problems := notFinite(m.ProtoReflect(), "")
	seen := make(map[string]bool)
	for _, p := range problems {
		seen[p.Field] = true
	}
	err := c.rules.Validate(m)
	var invalid *protovalidate.ValidationError
	switch {
	case err == nil:
	case errors.As(err, &invalid):
		for _, v := range invalid.Violations {
			if field := protovalidate.FieldPathString(v.Proto.GetField()); !seen[field] {
				problems = append(problems, Problem{Field: field, Reason: v.Proto.GetMessage()})
			}
		}
	default: // a rule that does not compile: refuse rather than let unchecked items in
		problems = append(problems, Problem{Reason: "cannot be checked: " + err.Error()})
	}
	return problems
}
