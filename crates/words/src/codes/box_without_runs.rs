//! `box-without-runs`

code! {
    "box-without-runs"
    title: "A box that feeds nothing" | "Ein Verteiler, der nichts speist",
    short: "feeds nothing" | "speist nichts",
    message: "box {element} feeds nothing" | "Verteiler {element} speist nichts",
    label: "<model {model}>" | "<Modell {model}>",
    hint: "wire it, or remove it" | "verdrahten oder entfernen",
    english:
        /// # What it checks
        /// Distributors and branch boxes with no run on any port.
        ///
        /// # Why it matters
        /// It costs money and standby power for nothing; more often, the runs were entered on another box by mistake.
        ///
        /// # Example
        /// A-D2 is fed, but every run of its floor starts at A-D1.
        ///
        /// # What to do
        /// Move the runs, or leave the box out.
    german:
        /// # Was geprüft wird
        /// Verteiler und Abzweigdosen ohne Strang an irgendeinem Abgang.
        ///
        /// # Warum es zählt
        /// Sie kosten Geld und Ruhestrom für nichts; häufiger sind die Stränge irrtümlich bei einem anderen
        /// eingetragen.
        ///
        /// # Beispiel
        /// A-D2 wird gespeist, aber jeder Strang seines Geschosses beginnt an A-D1.
        ///
        /// # Was zu tun ist
        /// Die Stränge umsetzen, oder den Verteiler weglassen.
}
