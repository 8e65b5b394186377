//! `hold-time-overridden`

code! {
    "hold-time-overridden"
    title: "The door station's own release time wins" | "Die eigene Freigabezeit der Türstation gilt",
    short: "station's own time wins" | "Zeit der Station gilt",
    message:
        "{station} holds the lock {lock} of {element} for {value}, not for the stated {limit}"
        | "{station} gibt das Schloss {lock} von {element} {value} lang frei, nicht {limit} wie angegeben",
    hint:
        "set the release time on the door station, or correct the file"
        | "die Freigabezeit an der Türstation einstellen, oder die Datei berichtigen",
    measure:
        "For how many seconds there is voltage at the lock after a release."
        | "Wie viele Sekunden nach einer Freigabe Spannung am Schloss liegt.",
    english:
        /// # What it checks
        /// Locks whose plan states a `hold_time` that differs from the release time set in their door
        /// station. The station's own setting wins.
        ///
        /// # Why it matters
        /// The installer sets what the plan says in the place where it has no effect, and the door is held
        /// shorter or longer than agreed.
        ///
        /// # Example
        /// The plan says 8 s, the door station's setting 3 s: the door is released for 3 s.
        ///
        /// # What to do
        /// Set the door station to the planned time, or change `hold_time` to what the station does.
    german:
        /// # Was geprüft wird
        /// Schlösser, für die der Plan eine `hold_time` nennt, die von der in ihrer Türstation eingestellten
        /// Freigabezeit abweicht. Die Einstellung der Station geht vor.
        ///
        /// # Warum es zählt
        /// Der Errichter stellt den Planwert dort ein, wo er nichts bewirkt, und die Tür ist kürzer oder länger
        /// frei als vereinbart.
        ///
        /// # Beispiel
        /// Der Plan sagt 8 s, die Türstation ist auf 3 s gestellt: Die Tür ist 3 s frei.
        ///
        /// # Was zu tun ist
        /// Die Türstation auf die geplante Zeit stellen, oder `hold_time` dem anpassen, was die Station tut.
}
