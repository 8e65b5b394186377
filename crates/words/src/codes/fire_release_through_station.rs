//! `fire-release-through-station`

code! {
    "fire-release-through-station"
    title:
        "The fire alarm releases a door through its station only"
        | "Die Brandmeldeanlage gibt eine Tür nur über deren Station frei",
    short: "fire by the station" | "Brandfall über Station",
    message:
        "the fire alarm releases {locks} of {element} through the door station only"
        | "Die Brandmeldeanlage gibt {locks} von {element} nur über die Türstation frei",
    hint:
        "have the fire alarm open a contact in the lock's own supply; the responsible person decides"
        | "die Brandmeldeanlage einen Kontakt in der Speisung des Schlosses selbst öffnen lassen; die verantwortliche Person entscheidet",
    measure:
        "With those who look after the fire alarm, and with the door station unplugged: the voltage at the lock while it is in alarm."
        | "Mit denen, die die Brandmeldeanlage betreuen, und bei abgesteckter Türstation: die Spannung am Schloss während des Alarms.",
    english:
        /// # What it checks
        /// Entrances whose fire alarm acts on an input of the door station only, with no contact in the lock's own
        /// circuit (`fire_interlock`). On an escape route this is an error, unless a handle or bar opens every lock.
        ///
        /// # Why it matters
        /// The release then asks a processor, a relay and, for a lock that needs power to open, the bus. Fire takes
        /// the mains first. Egress must never depend on the bus.
        ///
        /// # Example
        /// The fire alarm's contact on the door station's input, the door held by a magnet.
        ///
        /// # What to do
        /// Have the fire alarm open a contact in the lock's own supply as well (`fire_interlock = true`); the input may
        /// stay, to tell people. The responsible person and the local code decide.
    german:
        /// # Was geprüft wird
        /// Eingänge, deren Brandmeldeanlage nur auf einen Eingang der Türstation wirkt, ohne Kontakt im Stromkreis
        /// des Schlosses selbst (`fire_interlock`). An einem Fluchtweg ist das ein Fehler, es sei denn, ein Drücker
        /// oder eine Stange öffnet jedes Schloss.
        ///
        /// # Warum es zählt
        /// Die Freigabe braucht dann einen Prozessor, ein Relais und, bei einem Schloss, das zum Öffnen Strom
        /// braucht, den Bus. Feuer nimmt zuerst das Netz. Der Fluchtweg darf nie vom Bus abhängen.
        ///
        /// # Beispiel
        /// Der Kontakt der Brandmeldeanlage am Eingang der Türstation, die Tür von einem Haltemagneten gehalten.
        ///
        /// # Was zu tun ist
        /// Die Brandmeldeanlage auch einen Kontakt in der Speisung des Schlosses selbst öffnen lassen
        /// (`fire_interlock = true`); der Eingang darf bleiben, um zu melden. Die verantwortliche Person und die
        /// örtliche Regel entscheiden.
}
