// Package work puts the tasks of a job into an order, with their waiting times: what may be begun when, what the last day hangs on,
// and by how much the rest can slip.
package work

import (
	"fmt"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Task is something that is done, then perhaps waited for.
type Task struct {
	ID       string // short, unique, stable: "dig"
	Name     string
	Sentence string
	After    []string  // IDs of the tasks that are ready before it begins
	Labour   unit.Time // of one person; 0 where it is only waited for
	Machine  bool      // one machine sets the pace, however many people there are
	Others   bool      // done by others, while the team does something else
	Wait     unit.Time // after the labour, before what follows may begin; it runs day and night
	Source   source.Source
}

// A Team is who works, and when. Nobody works on two tasks at a time.
type Team struct {
	People       int
	Daily        unit.Time // of work on a day
	DaysPerWeek  int       // from Monday on
	FirstWeekday int       // of the first day: 0 is Monday
	// Many lets tasks run beside one another as if there were a team for each: the plain network of the textbook.
	Many bool
}

// morning is when work begins. It matters for waiting alone, which runs through the night.
const morning = unit.Time(8 * 3600)

// check finds everything wrong with tasks and team.
func check(tasks []Task, team Team) input.Errors {
	var errs input.Errors
	errs.Between("people", float64(team.People), 1, 1000, "give at least one")
	errs.Between("hours_per_day", team.Daily.Hours(), 0.5, 24, "give the hours worked on a day")
	errs.Between("days_per_week", float64(team.DaysPerWeek), 1, 7, "give one to seven")
	errs.Between("first_weekday", float64(team.FirstWeekday), 0, 6, "0 is Monday")
	seen := map[string]bool{}
	for i, task := range tasks {
		at := fmt.Sprintf("tasks[%d]", i)
		if task.ID == "" || seen[task.ID] {
			errs.Add(at+".id", "give each task an identifier of its own", "%q is missing or used twice", task.ID)
		}
		seen[task.ID] = true
		errs.Between(at+".work_h", task.Labour.Hours(), 0, 1e6, "give its hours")
		errs.Between(at+".wait_days", task.Wait.Days(), 0, 1e4, "give its days")
	}
	for i, task := range tasks {
		for _, before := range task.After {
			if !seen[before] {
				errs.Add(fmt.Sprintf("tasks[%d].after", i), "name a task of the list", "there is no task %q", before)
			}
		}
	}
	return errs
}
