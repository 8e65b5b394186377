//! `lock-feed-missing`

code! {
    "lock-feed-missing"
    title: "Nothing feeds a lock" | "Nichts speist ein Schloss",
    short: "lock without feed" | "Schloss ohne Speisung",
    message:
        "the lock {lock} of {element} has no feed: {missing}"
        | "Das Schloss {lock} von {element} hat keine Speisung: {missing}",
    label: "<feed is {feed}>" | "<feed ist {feed}>",
    measure:
        "The voltage between the two wires of the lock while it is released: none means that only a contact switches, and nothing feeds it."
        | "Die Spannung zwischen den beiden Drähten des Schlosses während der Freigabe: keine heißt, dass nur ein Kontakt schaltet und nichts speist.",
    english:
        /// # What it checks
        /// That something feeds every lock: a door station whose model has a lock output where `feed` is
        /// `"station"`, a stated `supply_voltage` where it is `"own-supply"`. A lock that needs power is not
        /// served by a dry contact.
        ///
        /// # Why it matters
        /// A relay only switches. Without a supply of its own behind it nothing opens, and this is found out
        /// when the door is hung.
        ///
        /// # Example
        /// The door station has a relay but no lock output; the plan says that the station feeds the strike.
        ///
        /// # What to do
        /// Give the lock a supply of its own (`feed = "own-supply"`, `supply_voltage`), or take a door
        /// station with a lock output.
    german:
        /// # Was geprüft wird
        /// Dass jedes Schloss gespeist wird: von einer Türstation, deren Modell einen Schlossausgang hat, wo `feed`
        /// `"station"` ist; von einer angegebenen `supply_voltage`, wo es `"own-supply"` ist. Einem Schloss, das
        /// Strom braucht, nützt ein potenzialfreier Kontakt nichts.
        ///
        /// # Warum es zählt
        /// Ein Relais schaltet nur. Ohne eigene Speisung dahinter öffnet nichts, und das merkt man, wenn die Tür
        /// eingehängt ist.
        ///
        /// # Beispiel
        /// Die Türstation hat ein Relais, aber keinen Schlossausgang; der Plan sagt, die Station speise den
        /// Türöffner.
        ///
        /// # Was zu tun ist
        /// Dem Schloss ein eigenes Netzteil geben (`feed = "own-supply"`, `supply_voltage`), oder eine Türstation
        /// mit Schlossausgang nehmen.
}
