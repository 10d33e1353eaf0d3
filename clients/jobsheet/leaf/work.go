package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/figure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// work is the order of work with its waiting times.
func (l *leaf) work() (part, error) {
	p := part{ID: "work", Title: "Order of work", Apart: true}
	w := l.plan.GetWork()
	if w == nil {
		return p, nil
	}
	dated := w.GetFirstDay() != ""
	t := columns("Tasks in the order they are begun", "Task", "Begin", ">work, h", "Then wait", "Goes on", "What to do, and what to mind")
	for _, task := range w.GetTasks() {
		wait, name := "–", task.GetName()
		if task.GetWaitDays() > 0 {
			wait = figure.With(task.GetWaitDays(), "days")
		}
		if task.GetCritical() {
			name += " ●"
		}
		words := sentence(task.GetSentence())
		if source := sourceText(task.GetSource()); source != "" {
			words += " [" + source + "]"
		}
		t.row(name, dayOf(task.GetFirstDay(), task.GetFirstDayNumber(), dated), figure.Number(task.GetWorkH()), wait,
			dayOf(task.GetReadyDay(), task.GetReadyDayNumber(), dated), words)
	}
	t.Note = "● The whole job ends later if this one does."
	p.Blocks = append(p.Blocks, t.block("")...)
	rows := []pair{
		{"Work", figure.With(w.GetWorkH(), "h") + " of all people together"},
		{"On site", fmt.Sprintf("%d days from the first to the last, waiting between included", w.GetBuildDays())},
		{"Until the last fish are in", fmt.Sprintf("%d days", w.GetUntilStockedDays())},
	}
	if dated {
		rows[1].Said += ": " + day(w.GetFirstDay()) + " to " + day(w.GetLastDay())
		if w.GetStockedDay() != "" {
			rows[2].Said += ": " + day(w.GetStockedDay())
		}
	}
	if !fishIn(l.plan) {
		rows = rows[:2]
	}
	p.Blocks = append(p.Blocks, block{Rows: rows})
	p.Blocks = append(p.Blocks, l.grave(w.GetFindings())...)
	return p, nil
}

func fishIn(plan *pb.PlanJobResponse) bool {
	return len(plan.GetAsked().GetJob().GetBrief().GetStock().GetGroups()) > 0
}

// dayOf is the date of a day, or its number where no first day was given.
func dayOf(iso string, number int32, dated bool) string {
	if dated && iso != "" {
		return day(iso)
	}
	return "day" + figure.Space + fmt.Sprint(number)
}
