package host

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// collect reads a whole catalogue and checks all of it.
func (h *Host) collect(ctx context.Context, p Plugin, from contract.Catalogue) (*Catalogue, error) {
	description, err := h.describe(ctx, p, from)
	if err != nil {
		return nil, err
	}
	r := reading{checker: h.checker, plugin: p}
	if err := r.items(ctx, from); err != nil {
		return nil, err
	}
	c := &Catalogue{Name: p.Name, Description: description}
	c.Items, c.Quarantined = r.sift()
	return c, nil
}

func (h *Host) describe(ctx context.Context, p Plugin, from contract.Catalogue) (*cataloguev1.DescribeResponse, error) {
	within, cancel := context.WithTimeout(ctx, p.CallTimeout)
	defer cancel()
	d, err := from.Describe(within)
	if err != nil {
		return nil, callFailure(ctx, within, p, "Describe", err)
	}
	if problems := h.checker.CheckDescription(d); len(problems) > 0 {
		return nil, &Failure{
			Plugin: p.Name,
			What:   "describes itself in a way that cannot be used: " + contract.Join(problems),
			Change: "mend what its Describe answers",
			Err:    ErrContent,
		}
	}
	return d, nil
}

// reading is a catalogue on its way in.
type reading struct {
	checker *contract.Checker
	plugin  Plugin
	all     []arrival
	bytes   int
}

// arrival is an item as it came, or what came in its place.
type arrival struct {
	number   string
	item     *equipmentv1.Item // nil where the plugin cannot give it
	problems []contract.Problem
}

func (r *reading) items(ctx context.Context, from contract.Catalogue) error {
	within, cancel := context.WithTimeout(ctx, r.plugin.CallTimeout)
	defer cancel()
	for item, err := range from.Items(within) {
		var rejected *contract.Rejected
		switch {
		case errors.As(err, &rejected):
			r.bytes += len(rejected.Error())
		case err != nil:
			return callFailure(ctx, within, r.plugin, "StreamItems", err)
		default:
			r.bytes += proto.Size(item)
		}
		if len(r.all) == r.plugin.MaxItems {
			return r.flood(fmt.Sprintf("sends more than %d items", r.plugin.MaxItems), "raise MaxItems if the catalogue is meant to be that long")
		}
		if r.bytes > MaxCatalogueBytes {
			return r.flood(fmt.Sprintf("sends more than %d MiB", MaxCatalogueBytes>>20), "split the catalogue")
		}
		r.all = append(r.all, r.arrive(item, rejected))
	}
	return nil
}

// arrive checks what came next.
func (r *reading) arrive(item *equipmentv1.Item, rejected *contract.Rejected) arrival {
	if rejected != nil {
		rejected = rejected.Bounded() // whoever wrote the plugin
		return arrival{number: rejected.ItemNumber, problems: rejected.Problems}
	}
	return arrival{number: item.GetItemNumber(), item: item, problems: r.checker.Check(item)}
}

func (r *reading) flood(what, change string) error {
	return &Failure{Plugin: r.plugin.Name, What: what, Change: change, Err: ErrContent}
}

// sift sorts good items from bad. Of items that share a number none is good: which of them was meant is not known, and the
// first to come may be another next time.
func (r *reading) sift() ([]*equipmentv1.Item, []Quarantined) {
	uses := make(map[string]int, len(r.all))
	for _, a := range r.all {
		uses[a.number]++
	}
	var good []*equipmentv1.Item
	var bad []Quarantined
	for i, a := range r.all {
		if n := uses[a.number]; n > 1 && a.number != "" {
			a.problems = append(a.problems, contract.Problem{
				Field:  "item_number",
				Reason: fmt.Sprintf("used by %d items: give each its own number", n),
			})
		}
		if len(a.problems) > 0 {
			bad = append(bad, Quarantined{ItemNumber: a.number, Position: i, Problems: a.problems})
			continue
		}
		good = append(good, a.item)
	}
	slices.SortFunc(good, func(a, b *equipmentv1.Item) int { return strings.Compare(a.GetItemNumber(), b.GetItemNumber()) })
	return good, bad
}

// callFailure says what became of a call that was made within a time limit of its own.
func callFailure(ctx, within context.Context, p Plugin, call string, err error) error {
	if cause := gaveUp(ctx, within, err); cause != nil {
		return &Failure{Plugin: p.Name, What: "was not read to the end, as the reader gave up during " + call, Err: errors.Join(ErrCall, cause)}
	}
	s := status.Convert(err)
	f := &Failure{Plugin: p.Name, Err: errors.Join(ErrCall, errors.New(s.Message()))}
	switch s.Code() {
	case codes.DeadlineExceeded:
		f.What, f.Err = fmt.Sprintf("did not finish %s within %s", call, p.CallTimeout), errors.Join(ErrCall, context.DeadlineExceeded)
		f.Change = "look at what it waits for, or raise its call time limit"
	case codes.Unavailable:
		f.What, f.Change = "broke off during "+call, "look at its own log for the reason"
		f.Err = errors.Join(ErrCall, ErrDied, errors.New(s.Message()))
	case codes.Unimplemented:
		f.What, f.Change = "does not know the call "+call, "build it with the SDK of this protocol version"
	case codes.ResourceExhausted:
		f.What, f.Change = "sent too large a message in "+call, fmt.Sprintf("send pages of at most %d MiB", contract.MaxMessageBytes>>20)
	case codes.FailedPrecondition:
		f.What, f.Err = "cannot give its catalogue", errors.Join(ErrContent, errors.New(s.Message()))
	default:
		f.What, f.Change = fmt.Sprintf("answered %s with an error (%s)", call, s.Code()), "look at its own log for the reason"
	}
	return f
}

// gaveUp is why the reader, and not the plugin, ended a call. A plugin keeps the reader's deadline too, and may say that it has
// passed a moment before the reader's own clock does.
func gaveUp(ctx, within context.Context, err error) error {
	if ctx.Err() != nil {
		return context.Cause(ctx)
	}
	readers, limited := ctx.Deadline()
	callers, _ := within.Deadline()
	if limited && status.Code(err) == codes.DeadlineExceeded && !callers.Before(readers) {
		return context.DeadlineExceeded
	}
	return nil
}
