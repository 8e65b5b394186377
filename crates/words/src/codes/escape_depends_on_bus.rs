//! `escape-depends-on-bus`

code! {
    "escape-depends-on-bus"
    title: "The way out depends on the bus" | "Der Fluchtweg hängt vom Bus ab",
    short: "way out needs the bus" | "Ausgang hängt am Bus",
    message:
        "the way out at {element} depends on the bus: nothing else opens the lock {lock}"
        | "Der Fluchtweg bei {element} hängt vom Bus ab: Nichts sonst öffnet das Schloss {lock}",
    hint:
        "a handle or bar that opens without power, or an exit button in the lock's own circuit"
        | "ein Drücker oder eine Stange, die ohne Strom öffnet, oder ein Türöffnertaster im Stromkreis des Schlosses selbst",
    measure:
        "The voltage at the lock with the door station unplugged: if it is still there, try what lets people out then."
        | "Die Spannung am Schloss bei abgesteckter Türstation: Ist sie noch da, ausprobieren, was dann hinauslässt.",
    english:
        /// # What it checks
        /// Locks on an escape route that open without power, but whose power comes from the door station or
        /// the bus, with neither a mechanical means of escape nor an emergency release that breaks the
        /// lock's own circuit by hand. (Locks that stay shut without power are looked at by
        /// `escape-fail-secure`.)
        ///
        /// # Why it matters
        /// The exit button then asks a processor to open the way out. A station that hangs, or a bus that
        /// browns out just above the lock's drop-out, keeps the door shut. Egress must never depend on the
        /// bus.
        ///
        /// # Example
        /// A magnet fed from the door station, released by a button on the station's input.
        ///
        /// # What to do
        /// An emergency release at the door that breaks the magnet's circuit itself (`emergency_release =
        /// true`), or a handle or bar (`mechanical_escape = true`). The responsible person and the local
        /// code decide.
    german:
        /// # Was geprüft wird
        /// Schlösser an einem Fluchtweg, die ohne Strom öffnen, deren Strom aber von der Türstation oder vom Bus
        /// kommt, ohne mechanische Fluchtmöglichkeit und ohne Nottaster, der den Stromkreis des Schlosses selbst
        /// von Hand unterbricht. (Schlösser, die ohne Strom zu bleiben, betrachtet `escape-fail-secure`.)
        ///
        /// # Warum es zählt
        /// Der Türöffnertaster bittet dann einen Prozessor, den Fluchtweg zu öffnen. Eine Station, die hängt, oder
        /// ein Bus, der knapp über dem Abfallwert des Schlosses in Unterspannung stehen bleibt, hält die Tür zu.
        /// Der Fluchtweg darf nie vom Bus abhängen.
        ///
        /// # Beispiel
        /// Ein Haltemagnet, den die Türstation speist und ein Taster an ihrem Eingang freigibt.
        ///
        /// # Was zu tun ist
        /// Ein Nottaster an der Tür, der den Stromkreis des Magneten selbst unterbricht (`emergency_release =
        /// true`), oder ein Drücker oder eine Stange (`mechanical_escape = true`). Die verantwortliche Person und
        /// die örtliche Regel entscheiden.
}
