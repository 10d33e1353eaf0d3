package catalogue

import (
	"math/rand/v2"
	"time"
)

// A Pace says how soon what went wrong is tried again, and how often what runs is looked at.
type Pace struct {
	FirstWait time.Duration // before the first new try; each next one waits twice as long
	MostWait  time.Duration // and no longer than this
	Tries     int           // that may fail within the window before no more are made
	Window    time.Duration

	Beat      time.Duration // between two heartbeats of a plugin that is kept running
	BeatLimit time.Duration // that it may take to answer one
	Missed    int           // in a row, before it is taken for dead

	Look time.Duration // between two looks at the watched files
}

// UsualPace is that of a server.
func UsualPace() Pace {
	return Pace{
		FirstWait: time.Second, MostWait: time.Minute, Tries: 5, Window: 10 * time.Minute,
		Beat: 10 * time.Second, BeatLimit: 5 * time.Second, Missed: 2,
		Look: time.Second,
	}
}

// A backOff says when to try again.
type backOff struct {
	pace   Pace
	failed []time.Time // within the window
	row    int         // failures without a whole window of peace between them
}

// next takes note of a failure and gives the time to wait before the next try; false is that there is to be none.
func (b *backOff) next(now time.Time) (time.Duration, bool) {
	if n := len(b.failed); n > 0 && now.Sub(b.failed[n-1]) > b.pace.Window {
		b.row = 0
	}
	kept := b.failed[:0]
	for _, at := range b.failed {
		if now.Sub(at) <= b.pace.Window {
			kept = append(kept, at)
		}
	}
	b.failed = append(kept, now)
	b.row++
	if len(b.failed) > b.pace.Tries {
		return 0, false
	}
	wait := b.pace.FirstWait
	for range b.row - 1 {
		if wait *= 2; wait >= b.pace.MostWait {
			return b.pace.MostWait, true
		}
	}
	return min(wait, b.pace.MostWait), true
}

// afresh forgets all failures, as when somebody asks for a reading.
func (b *backOff) afresh() { b.failed, b.row = nil, 0 }

// jitter is a time give or take a tenth.
func jitter(d time.Duration) time.Duration {
	return time.Duration(float64(d) * (0.9 + 0.2*rand.Float64()))
}
