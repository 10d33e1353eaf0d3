package handover

// Kept is what there is on a pond, for what its owner is told.
type Kept struct{ Fish, Filter, Lamp, Pump, Fall, Winter, Flush bool }

// A WhatIf is what an owner does when something happens.
type WhatIf struct{ Happens, Now, Then string }

// WhatIfs are the questions that come first, in the words of an owner.
func WhatIfs(k Kept) []WhatIf {
	var made []WhatIf
	add := func(on bool, happens, now, then string) {
		if on {
			made = append(made, WhatIf{happens, now, then})
		}
	}
	add(k.Fish, "Fish gasp at the surface in the morning", "Start the air, run the fall, stop feeding, let treated water trickle in.", "Test ammonia and nitrite, look at the pump, and ask why the night was short of oxygen.")
	add(k.Pump, "The fall has become weaker", "Unplug, clean the cage, look for a kink in the hose.", "Time a bucket and set it against the baseline; with less power too it is the inlet, with the same power it is hose, lamp unit or filter.")
	add(true, "The level falls", "Mark it, top up with treated water, keep the pump covered.", "One day with the pump on and one off, without topping up. If it falls only while it runs, look along the fall for a low stone or a splash.")
	add(k.Pump, "The residual-current device trips", "Leave it off; put hands in no water. What keeps the fish alive goes on another device.", "Unplug all, then one item at a time. The one that trips it is taken out; a licensed electrician looks at the rest. Never bypass it.")
	add(k.Pump, "The pump hums and nothing comes", "Unplug; look for a jammed impeller or a kinked hose, and let trapped air out by tipping it under water.", "In frost, look for ice in the hose before anything else.")
	add(true, "The water turns green", "Nothing in a hurry: it is ordinary in spring.", "Is the lamp on, younger than its hours, its sleeve clean, the flow as it was? Less feed, more shade. No algae killer in warm weather.")
	add(true, "Threads of weed grow in clear water", "Wind it out by hand or with a stick.", "A lamp does nothing against it; less feed, more plants.")
	add(k.Pump, "The power is off for hours", "With fish: air from a battery, no feed. Nothing else.", "When it is back, look that the pump draws, and test the water next day.")
	add(true, "Somebody has fallen in", "Shout for help, get them out at once and call the emergency number; let somebody switch everything off at the house meanwhile. Where the water tingles or a cable is damaged, switch off first: it can kill the helper too.", "Any depth of water can drown a child.")
	add(true, "The pond is frozen over", "Set a pan of hot water on the ice, never hammer. Nobody walks on it.", "")
	add(k.Fish, "A fish is sick", "Test the water first; most sickness is water.", "Photograph it, note the volume of the pond, and ask a vet. Dose by label and never by guess.")
	add(k.Flush, "Where the flush water goes", "On a border or a lawn.", "Never into a stream or a surface-water drain; a sewer only with the leave of whoever runs it.")
	return made
}

// Spares are what is kept in the shed.
func Spares(k Kept) []string {
	made := []string{"test strips or drops for ammonia, nitrite, pH and carbonate hardness, in date", "something that binds chlorine, and the measured volume written on it"}
	if k.Pump {
		made = append(made, "an impeller and its seal", "two hose clips")
	}
	if k.Filter {
		made = append(made, "one set of filter media; never all changed at once")
	}
	if k.Lamp {
		made = append(made, "a lamp, a sleeve and O-rings; an old lamp holds mercury and goes to the collection point")
	}
	if k.Fish {
		made = append(made, "a net, a soft tub, and an air pump that runs without the mains")
	}
	return made
}

// Switches say what each does.
func Switches(k Kept) []string {
	made := []string{"main switch at the house: everything at the pond, before hands go in"}
	if k.Pump {
		made = append(made, "pump: day and night while fish are fed")
	}
	if k.Lamp {
		made = append(made, "lamp unit: only while the pump runs, from spring to autumn")
	}
	if k.Fish {
		made = append(made, "air: on a supply of its own")
	}
	return made
}
