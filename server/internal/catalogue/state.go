package catalogue

import (
	"time"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// A State is how one catalogue is doing.
type State struct {
	Source  Source
	Reading bool // at this moment

	Fault    string        // why the last reading failed; empty where it went well
	ReadAt   time.Time     // when the last reading began, however it went; zero before the first
	Took     time.Duration // that reading
	GoodAt   time.Time     // when the reading in force began
	Next     time.Time     // when it is read again by itself; zero where it is not
	GaveUp   bool          // too many tries failed; it is read again when asked, by its refresh or when a watched file changes
	Readings int           // so far, however they went

	Live      LiveState
	LiveFault string // why the plugin last went down; empty while it is up
	LiveSince time.Time

	shelf *shelf
}

// Well is whether the last reading went well and, where the catalogue answers live, its plugin runs.
func (s State) Well() bool { return s.shelf != nil && s.Fault == "" && s.Live != LiveDown }

// InForce is the description of the reading in force and how many items it has and leaves out; nil where there is none.
func (s State) InForce() (description *cataloguev1.DescribeResponse, items, quarantined int) {
	if s.shelf == nil {
		return nil, 0, 0
	}
	return s.shelf.description, len(s.shelf.items), s.shelf.out.count
}

// Message is the state as callers are told it.
func (s State) Message() *pb.CatalogueStatus {
	d, items, quarantined := s.InForce()
	m := &pb.CatalogueStatus{
		Catalogue: s.Source.Name(), Title: d.GetTitle(), Revision: d.GetRevision(), Currency: d.GetCurrency(), Notice: d.GetNotice(),
		ItemCount: int32(items), QuarantinedCount: int32(quarantined), Fault: s.Fault, Priority: int32(s.Source.Priority),
		ReadingCount: int32(s.Readings), Reading: s.Reading, LastReadingTime: wire.Time(s.ReadAt), LastReadingS: s.Took.Seconds(),
		InForceTime: wire.Time(s.GoodAt), NextReadingTime: wire.Time(s.Next), GivenUp: s.GaveUp, Well: s.Well(),
		Live: &pb.LivePlugin{
			State: liveStates[s.Live], Fault: s.LiveFault, SinceTime: wire.Time(s.LiveSince),
			AnswersStock:  contract.Can(d, cataloguev1.Capability_CAPABILITY_LIVE_STOCK),
			AnswersPrices: contract.Can(d, cataloguev1.Capability_CAPABILITY_LIVE_PRICE),
		},
	}
	return m
}

var liveStates = map[LiveState]pb.LiveState{
	LiveNone: pb.LiveState_LIVE_STATE_NONE, LiveUp: pb.LiveState_LIVE_STATE_UP, LiveDown: pb.LiveState_LIVE_STATE_DOWN,
}

// A LiveState is what became of a plugin that is kept running.
type LiveState int

// The live states.
const (
	LiveNone LiveState = iota // the catalogue answers no live questions
	LiveUp
	LiveDown
)
