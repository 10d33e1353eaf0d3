package source

// Habits, choices and definitions that belong to no one subject.
var (
	Practice   = Source{Key: "practice", Status: CommonPractice}
	Choice     = Source{Key: "choice", Citation: "chosen for this engine", Status: Assumed}
	Asked      = Source{Key: "brief", Citation: "the brief", Status: Given}
	Stated     = Source{Key: "catalogue", Citation: "the catalogue", Status: Given}
	Balance    = Source{Key: "mass-balance", Citation: "balance of mass: what goes in comes out or stays", Status: Derived}
	Definition = Source{Key: "definition", Citation: "by definition", Status: Derived}
)
