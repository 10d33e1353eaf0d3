package catalogue

import (
	"sync"

	"example.com/pondwright/calc/uv"
)

// mostConditions is how many conditions the light of one lamp unit is remembered for. Most questions leave the clearness of the
// water to be assumed, and are all of one condition.
const mostConditions = 16

// lightOf works the light in the chamber of a unit out once for each condition, which takes far longer than all else that a
// search asks of the unit. It may be called by many at once.
func lightOf(u uv.Unit) func(uv.Condition) (uv.Field, error) {
	var lock sync.Mutex
	known := map[uv.Condition]uv.Field{}
	return func(c uv.Condition) (uv.Field, error) {
		lock.Lock()
		field, ok := known[c]
		lock.Unlock()
		if ok {
			return field, nil
		}
		field, err := uv.FieldAt(nil, u, c)
		if err != nil {
			return field, err
		}
		lock.Lock()
		defer lock.Unlock()
		if len(known) >= mostConditions {
			clear(known)
		}
		known[c] = field
		return field, nil
	}
}
