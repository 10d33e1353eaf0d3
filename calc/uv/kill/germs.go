package kill

import "example.com/pondwright/calc/source"

func germs() []Response {
	const fishPathogens = "five Gram-negative fish pathogens, among them Aeromonas salmonicida and A. hydrophila"
	return []Response{
		row("fish-bacteria-filtered", fishPathogens, Bacteria, 13.1, 29.4,
			Inactivated, 3.69897, "99.98 to 100 % in filtered water", source.Bullock1977),
		row("fish-bacteria-spring-water", fishPathogens, Bacteria, 4.5, 4.5,
			Inactivated, 2.76955, "99.83 to 100 % in filtered clear spring water", source.Bullock1977),
		row("fish-bacteria-particles", fishPathogens, Bacteria, 4.0, 4.75,
			Inactivated, 2.17393, "99.33 to 99.99 % in filtered water with particles", source.Bullock1977),
		row("fish-bacteria-unfiltered", fishPathogens, Bacteria, 5, 5,
			Inactivated, 1.52288, "97 to 99.94 % at 5 or less in unfiltered water with particles", source.Bullock1977),
		row("fish-bacteria-five-species", "five species of fish pathogenic bacteria", Bacteria, 2.2, 2.2,
			Inactivated, 4, "99.99 % or more", source.Yoshimizu1990),
		row("coliforms-fish-farm", "faecal coliforms in a recirculating fish system", Bacteria, 37.1, 37.1,
			Inactivated, 1, "k = 0.0062 m²/J, base e assumed", source.Tcsae2011),
		row("coliforms-salmonid-system", "coliforms in a recirculating salmonid system", Bacteria, 77, 77,
			Killed, 0, "coliforms fully inactivated; heterotrophs under 2 log even at 1800", source.Sharrer2005),
		row("e-coli-lab", "Escherichia coli, laboratory strains", Bacteria, 7, 7,
			Inactivated, 3, "about 7 for 99.9 %", source.Chang1985),

		row("fish-viruses-sensitive", "IHNV, HRV, OMV, CCV, H. salmonis", Viruses, 1, 3,
			Inactivated, 2, "1 to 3 for 99 % or more", source.Yoshimizu1990),
		row("fish-viruses-hardy", "IPNV, CSV", Viruses, 100, 150,
			Inactivated, 2, "100 to 150 for 99 %", source.Yoshimizu1990),

		row("fungal-hyphae", "aquatic fungi, hyphae of 10 strains", Fungi, 150, 250,
			GrowthHeld, 0, "inhibits growth of hyphae", source.Yoshimizu1990),
		row("saprolegnia-zoospores", "Saprolegnia zoospores", Fungi, 35, 40,
			Killed, 0, "hyphae need 150 to 250", source.Wedemeyer1996),

		row("marine-white-spot-infectivity", "Cryptocaryon irritans theronts", Parasites, 184, 184,
			NotInfective, 0, "above this, loss of infectivity in vivo", source.Lu2022),
		row("marine-white-spot-lethal", "Cryptocaryon irritans theronts", Parasites, 288, 288,
			Killed, 0, "minimum lethal dose in vitro", source.Lu2022),
		row("kudoa", "Kudoa yasunagai actinospores", Parasites, 15, 30,
			NotInfective, 0, "no fish infected at 15 and 30; 5 cut prevalence from 45 % to under 10 %", source.Kudoa),
		row("white-spot-spread", "Ichthyophthirius multifiliis theronts", Parasites, 92, 92,
			NotInfective, 0, "91.9 stopped the spread from tank to tank", source.Gratzek1983),
		row("white-spot-lethal", "Ichthyophthirius multifiliis theronts", Parasites, 100, 100,
			Killed, 0, "about 100 kills", source.Hoffman1974),
		row("whirling-disease-protective", "Myxobolus cerebralis triactinomyxons", Parasites, 35, 35,
			NotInfective, 0, "reported protective", source.Hoffman1974),
		row("whirling-disease-lethal", "Myxobolus cerebralis triactinomyxons", Parasites, 1300, 1300,
			Killed, 0, "all killed by vital stain: disagrees with the protective dose by a factor of 37", source.Hedrick2000),
		row("trichodina", "Trichodina sp.", Parasites, 35, 159,
			Killed, 0, "35, and 159 for T. nigra", source.Hoffman1974),
		row("costia", "Ichthyobodo (Costia) necatrix", Parasites, 318, 318,
			Killed, 0, "", source.Vlasenko1969),
	}
}
