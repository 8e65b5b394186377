//! `relay-overloaded`

code! {
    "relay-overloaded"
    title: "A lock draws more than the relay's contact carries" | "Ein Schloss zieht mehr, als der Relaiskontakt trägt",
    short: "relay overloaded" | "Relais überlastet",
    message:
        "the lock {lock} of {element} draws {value}; the relay contact of {station} carries {limit}"
        | "Das Schloss {lock} von {element} zieht {value}; der Relaiskontakt von {station} trägt {limit}",
    label: "<its {which}>" | "<sein {which}>",
    hint: "put a relay of its own in between" | "ein eigenes Relais dazwischen setzen",
    measure:
        "With the power off and nothing released, the resistance across the relay's contact: one that should be open and is closed has welded."
        | "Spannungsfrei und ohne Freigabe den Widerstand über dem Relaiskontakt: Ist einer geschlossen, der offen sein soll, ist er verschweißt.",
    english:
        /// # What it checks
        /// For locks on a supply of their own or on the bus: the larger of the lock's current and its inrush
        /// against the contact rating of the door station's relay, or of the relay of its own that is put in
        /// between (`relay_between`). A station that does not state it is not judged.
        ///
        /// # Why it matters
        /// An overloaded contact welds: a fail-secure door then stays open, a fail-safe one stays shut.
        ///
        /// # Example
        /// A motor lock of 1.6 A inrush on a relay for 1 A.
        ///
        /// # What to do
        /// Put a relay of sufficient rating between, on the secure side of the door (`relay_between = "5 A"`); or
        /// take a lock that draws less.
    german:
        /// # Was geprüft wird
        /// Bei Schlössern an eigenem Netzteil oder am Bus: den größeren von Schlossstrom und Einschaltstrom gegen
        /// die Belastbarkeit des Relaiskontakts der Türstation, oder des Relais, das dazwischen gesetzt ist
        /// (`relay_between`). Eine Station, die sie nicht nennt, wird nicht beurteilt.
        ///
        /// # Warum es zählt
        /// Ein überlasteter Kontakt verschweißt: Eine Arbeitsstromtür bleibt dann offen, eine Ruhestromtür zu.
        ///
        /// # Beispiel
        /// Ein Motorschloss mit 1,6 A Einschaltstrom an einem Relais für 1 A.
        ///
        /// # Was zu tun ist
        /// Ein Relais mit genügender Belastbarkeit dazwischen setzen, auf der gesicherten Seite der Tür
        /// (`relay_between = "5 A"`); oder ein Schloss nehmen, das weniger zieht.
}
