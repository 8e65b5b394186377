//! `run-without-stops`

code! {
    "run-without-stops"
    title: "A run leads nowhere" | "Ein Strang führt nirgendwohin",
    message: "run {run} leads nowhere" | "Strang {run} führt nirgendwohin",
    label: "empty" | "leer",
    hint: "name what it reaches, or remove the run" | "nennen, was er erreicht, oder den Strang entfernen",
    english:
        /// `to` is an empty list. Name what the run reaches, or remove the run.
    german:
        /// `to` ist eine leere Liste. Nennen, was der Strang erreicht, oder ihn entfernen.
}
