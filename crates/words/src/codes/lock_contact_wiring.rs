//! `lock-contact-wiring`

code! {
    "lock-contact-wiring"
    title: "The relay's contact does not suit the lock" | "Der Relaiskontakt passt nicht zum Schloss",
    short: "contact unsuitable" | "Kontakt unpassend",
    message:
        "the lock {lock} of {element} {kind}, so its relay contact must be {required}, not {stated}"
        | "Das Schloss {lock} von {element} {kind}; sein Relaiskontakt muss {required} sein, nicht {stated}",
    label: "wired {stated}" | "verdrahtet als {stated}",
    hint:
        "<write contact for {required}, and wire it so>"
        | "<als Kontakt {required} eintragen und so verdrahten>",
    measure:
        "Whether there is voltage at the lock in standby. A lock that opens without power needs it then; one that stays shut needs none until it is released."
        | "Ob in Ruhe Spannung am Schloss liegt. Ein Schloss, das ohne Strom öffnet, braucht sie dann; eines, das geschlossen bleibt, erst bei der Freigabe.",
    english:
        /// # What it checks
        /// That the relay is wired as the lock needs it: a lock that opens without power (fail-safe) hangs
        /// on common and normally closed, in series with its supply; one that stays shut without power
        /// (fail-secure) on common and normally open. A drive with a dry contact is not looked at.
        ///
        /// # Why it matters
        /// The wrong contact turns the door round: it stands open all day and locks for five seconds when a
        /// resident presses the button.
        ///
        /// # Example
        /// A holding magnet on common and normally open.
        ///
        /// # What to do
        /// Move the wire to the other contact; set `contact` in the plan.
    german:
        /// # Was geprüft wird
        /// Dass das Relais so verdrahtet ist, wie das Schloss es braucht: Ein Schloss, das ohne Strom öffnet
        /// (Ruhestrom), hängt an COM (C) und Öffner, in Reihe mit seiner Speisung; eines, das ohne Strom zu bleibt
        /// (Arbeitsstrom), an COM (C) und Schließer. Ein Antrieb mit potenzialfreiem Kontakt wird nicht betrachtet.
        ///
        /// # Warum es zählt
        /// Der falsche Kontakt kehrt die Tür um: Sie steht den ganzen Tag offen und verriegelt fünf Sekunden lang,
        /// wenn ein Bewohner die Taste drückt.
        ///
        /// # Beispiel
        /// Ein Haltemagnet an COM (C) und Schließer.
        ///
        /// # Was zu tun ist
        /// Den Draht an den anderen Kontakt legen; `contact` im Plan setzen.
}
