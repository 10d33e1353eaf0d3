package kit

import "slices"

// Owned is what the owner has already and keeps; nil where nothing of the kind.
type Owned struct {
	Pump   *Pump
	Hose   *Hose
	Filter *Filter
	Lamp   *Lamp
}

// With puts what is owned at the end of each kind, free of charge, and says where: the places of the kinds that are not owned
// are those of Free.
func (r Range) With(o Owned) (Range, Set) {
	have := Stock{Owned: true}
	keep := Free()
	if o.Pump != nil {
		item := *o.Pump
		item.Price, item.Stock = 0, have
		keep.Pump, r.Pumps = len(r.Pumps), append(slices.Clip(r.Pumps), item)
	}
	if o.Hose != nil {
		item := *o.Hose
		item.PricePerMetre, item.Stock = 0, have
		keep.Hose, r.Hoses = len(r.Hoses), append(slices.Clip(r.Hoses), item)
	}
	if o.Filter != nil {
		item := *o.Filter
		item.Price, item.Stock = 0, have
		keep.Filter, r.Filters = len(r.Filters), append(slices.Clip(r.Filters), item)
	}
	if o.Lamp != nil {
		item := *o.Lamp
		item.Price, item.Stock = 0, have
		keep.Lamp, r.Lamps = len(r.Lamps), append(slices.Clip(r.Lamps), item)
	}
	return r, keep
}
