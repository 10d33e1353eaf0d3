package wire

import (
	"fmt"
	"time"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/work"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// What stands in for what is not said of who works, of common practice.
const (
	usualPeople = int32(1)
	usualDaily  = 7.0 // hours
	usualWeek   = int32(5)
)

// Team reads who works and when. The first weekday is Monday where no day is told.
func (n *Notes) Team(w *pb.JobWork, first time.Time, known bool) work.Team {
	if w == nil {
		w = &pb.JobWork{}
	}
	team := work.Team{
		People:      int(assumed(n, w.People, usualPeople, assume.Note("work", "How many work", float64(usualPeople), "", "say so"))),
		Daily:       unit.Hours(assumed(n, w.HoursPerDay, usualDaily, assume.Note("work", "How long a day's work is", usualDaily, "h", "say so"))),
		DaysPerWeek: int(assumed(n, w.DaysPerWeek, usualWeek, assume.Note("work", "How many days a week are worked", float64(usualWeek), "", "say so"))),
	}
	if known {
		team.FirstWeekday = (int(first.Weekday()) + 6) % 7 // Monday is 0
	}
	return team
}

// Digger reads how the hole is dug: by hand where nothing is said and it is small.
func (n *Notes) Digger(w *pb.JobWork, dug float64) work.Digger {
	const byHand = 6.0 // m³ in the bank, above which a machine is usual: common practice
	d, ok := map[pb.DigMethod]work.Digger{
		pb.DigMethod_DIG_METHOD_BY_HAND: work.ByHand, pb.DigMethod_DIG_METHOD_MICRO_DIGGER: work.Micro, pb.DigMethod_DIG_METHOD_MINI_DIGGER: work.Mini,
	}[w.GetDigMethod()]
	if !ok {
		if d = work.ByHand; dug > byHand {
			d = work.Micro
		}
		note := assume.Note("dig", "How it is dug", dug, "m³", "say so")
		note.Sentence = fmt.Sprintf("How it is dug was not given; for %.1f m³ it is taken to be dug %s.", dug, d.Name)
		if d.Machine {
			note.Sentence = fmt.Sprintf("How it is dug was not given; for %.1f m³ a %s is assumed.", dug, d.Name)
		}
		n.note(note)
	}
	if w != nil && w.DigM3PerH != nil {
		d.PerHour = unit.CubicMetres(w.GetDigM3PerH())
	}
	return d
}

// ExtraTasks reads what is done besides. Errors carry field paths from the work on; known are the identifiers of the other tasks.
func ExtraTasks(w *pb.JobWork, known func(id string) bool) ([]work.Task, error) {
	var errs input.Errors
	var made []work.Task
	for i, x := range w.GetExtra() {
		task := work.Task{
			ID: fmt.Sprintf("extra_%d", i+1), Name: x.GetTask(), Sentence: "As the brief says.", Labour: unit.Hours(x.GetWorkH()), Source: source.Asked,
		}
		if after := x.GetAfter(); after != "" {
			if task.After = []string{after}; !known(after) {
				errs.Add(fmt.Sprintf("extra[%d].after", i), "name a task of this plan, such as dig or lining", "there is no task %q on this job", after)
			}
		}
		made = append(made, task)
	}
	return made, errs.Err()
}

// Tasks turns planned tasks into messages.
func Tasks(planned []work.Planned, first time.Time, known bool) []*pb.WorkTask {
	made := make([]*pb.WorkTask, len(planned))
	for i, p := range planned {
		made[i] = &pb.WorkTask{
			Task: p.ID, Name: p.Name, Sentence: p.Sentence, After: p.After, WorkH: p.Labour.Hours(), WaitDays: p.Wait.Days(),
			FirstDayNumber: int32(p.FirstDay()), LastDayNumber: int32(p.LastDay()), ReadyDayNumber: int32(p.ReadyDay()),
			FirstDay: DayOn(first, known, p.FirstDay()), LastDay: DayOn(first, known, p.LastDay()), ReadyDay: DayOn(first, known, p.ReadyDay()),
			FloatDays: p.Float.Days(), Critical: p.Critical, Source: Source(p.Source),
		}
	}
	return made
}
