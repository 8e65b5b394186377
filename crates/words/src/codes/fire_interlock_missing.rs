//! `fire-interlock-missing`

code! {
    "fire-interlock-missing"
    title: "A powered lock that the fire alarm does not release" | "Ein bestromtes Schloss, das die Brandmeldeanlage nicht freigibt",
    short: "no fire interlock" | "Brandfallöffnung fehlt",
    message:
        "the fire alarm does not release the lock {lock} of {element}<, {role}>"
        | "Die Brandmeldeanlage gibt das Schloss {lock} von {element} nicht frei<, {role}>",
    hint:
        "have the fire alarm cut its power; the responsible person decides"
        | "den Strom des Schlosses von der Brandmeldeanlage unterbrechen lassen; die verantwortliche Person entscheidet",
    measure:
        "With those who look after the fire alarm, the voltage at the lock while it is in alarm: none may be left."
        | "Mit denen, die die Brandmeldeanlage betreuen, die Spannung am Schloss während des Alarms: Es darf keine mehr da sein.",
    english:
        /// # What it checks
        /// Holding magnets, and on escape routes all locks that open without power, for a stated fire
        /// interlock. A fire alarm on an input of the door station is looked at by
        /// `fire-release-through-station`. A magnet beside which a handle or bar is stated is looked at too: a bar does not move
        /// a magnet.
        ///
        /// # Why it matters
        /// When the fire alarm sounds, a powered magnet still holds with hundreds of kilograms. Only a
        /// contact of the alarm system in its own supply lets go.
        ///
        /// # Example
        /// A magnet at the front door of a block whose fire alarm does not know of it.
        ///
        /// # What to do
        /// A normally closed contact of the fire alarm in series with the lock's supply, beyond all
        /// electronics (`fire_interlock = true` at the entrance). Whether it is asked for is decided by the
        /// responsible person and the local code. Off an escape route this is a warning.
    german:
        /// # Was geprüft wird
        /// Haltemagnete, und an Fluchtwegen alle Schlösser, die ohne Strom öffnen, auf eine angegebene
        /// Brandfallsteuerung. Eine Brandmeldeanlage an einem Eingang der Türstation betrachtet
        /// `fire-release-through-station`. Ein Magnet, neben dem ein Drücker oder eine Stange angegeben ist, wird
        /// ebenfalls betrachtet: Eine Stange bewegt keinen Magneten.
        ///
        /// # Warum es zählt
        /// Wenn die Brandmeldeanlage auslöst, hält ein bestromter Magnet noch mit Hunderten Kilogramm. Nur ein
        /// Kontakt der Anlage in seiner eigenen Speisung lässt los.
        ///
        /// # Beispiel
        /// Ein Haltemagnet an der Haustür eines Blocks, dessen Brandmeldeanlage nichts von ihm weiß.
        ///
        /// # Was zu tun ist
        /// Ein Öffner der Brandmeldeanlage (BMA) in Reihe mit der Speisung des Schlosses, hinter aller Elektronik
        /// (`fire_interlock = true` am Eingang). Ob er verlangt wird, entscheiden die verantwortliche Person und
        /// die örtliche Regel. Abseits eines Fluchtwegs ist dies eine Warnung.
}
