package source

// Habits, choices and definitions that belong to no one subject.
var (
	Practice   = Source{Key: "practice", Status: CommonPractice}
	Choice     = Source{Key: "choice", Citation: "chosen for this engine", Status: Assumed}
	Definition = Source{Key: "definition", Citation: "by definition", Status: Derived}
)
