package kill

import "example.com/pondwright/calc/source"

// Green single cells are hard to kill, blue-greens far easier. Lists that give 12 to 22 mJ/cm² for Chlorella go back to
// no source that can be found, and are left out.
func algae() []Response {
	const microcystis, chlorella, tetraselmis = "Microcystis aeruginosa", "Chlorella vulgaris", "Tetraselmis suecica"
	return []Response{
		row("green-not-suppressed", "Chlorella ellipsoidea, Chlorella vulgaris, Scenedesmus quadricauda", GreenAlgae, 20, 200,
			NoEffect, 0, "neither significant suppression nor disintegration", source.Tao2010),
		row("chlorella-held", chlorella, GreenAlgae, 50, 200,
			GrowthHeld, 0, "growth inhibited 1 to 3 days, in reclaimed water", source.Li2020),
		row("chlorella-damaged", chlorella, GreenAlgae, 100, 200,
			Damaged, 0, "membrane damage to 23 to 62 % of cells within 3 days", source.Li2020),
		row("mixed-held", "Chlorella vulgaris and Microcystis aeruginosa together", GreenAlgae, 50, 200,
			GrowthHeld, 0, "growth inhibited 1 to 5 days", source.Li2020),
		row("tetraselmis-dark", tetraselmis, GreenAlgae, 100, 200,
			Inactivated, 0, "enough only if kept in the dark afterwards; marine", source.Olsen2016),
		row("tetraselmis", tetraselmis, GreenAlgae, 400, 400,
			Inactivated, 0, "inactivated after 1 day by every test; marine", source.Olsen2016),

		row("microcystis-growth-stop", microcystis, BlueGreenAlgae, 37, 37,
			GrowthHeld, 0, "no growth for about 7 days", source.BinAlam2001),
		row("microcystis-lethal", microcystis, BlueGreenAlgae, 75, 75,
			Killed, 0, "lethal; three days later almost all cells had settled", source.BinAlam2001),
		row("microcystis-suppressed", microcystis, BlueGreenAlgae, 20, 200,
			GrowthHeld, 0, "growth suppressed 3 to 13 days, dose dependent; 20 and 50 leave over 80 % of cells intact", source.Tao2010),
		row("microcystis-broken", microcystis, BlueGreenAlgae, 100, 200,
			Damaged, 0, "over 70 % of cells disintegrate", source.Tao2010),
		row("microcystis-reclaimed-water", microcystis, BlueGreenAlgae, 50, 200,
			GrowthHeld, 0, "growth inhibited 3 to 14 days, in reclaimed water", source.Li2020),
		row("microcystis-slow-kill", microcystis, BlueGreenAlgae, 600, 600,
			Inactivated, 1.5, "after 7 days, low-pressure lamp", source.Sakai2007),
		row("anabaena-slow-kill", "Anabaena variabilis", BlueGreenAlgae, 600, 600,
			Inactivated, 2.3, "after 7 days, low-pressure lamp; regrowth after repair", source.Sakai2007),
		row("microcystis-removed", microcystis, BlueGreenAlgae, 2117, 2117,
			Inactivated, 0.796, "84 % removed on day 5", source.Desalin2015),
	}
}
