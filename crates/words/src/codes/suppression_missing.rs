//! `suppression-missing`

code! {
    "suppression-missing"
    title: "Nothing kills the voltage spike of a coil" | "Nichts dämpft die Spannungsspitze einer Spule",
    short: "no suppression" | "Löschglied fehlt",
    message:
        "no part suppresses the voltage spike of the lock {lock} of {element}"
        | "Nichts fängt die Spannungsspitze des Schlosses {lock} von {element} ab",
    hint:
        "fit {suitable} across the coil<; a diode lets it go {diode_delay} later>"
        | "parallel zur Spule {suitable} einbauen<; eine Diode lässt das Schloss {diode_delay} später los>",
    measure:
        "Release the lock ten times while somebody watches the picture: a flash or a restart at the end of each release is the coil."
        | "Das Schloss zehnmal freigeben, während jemand auf das Bild sieht: Ein Blitz oder Neustart am Ende jeder Freigabe ist die Spule.",
    english:
        /// # What it checks
        /// Locks that the door station's relay switches on a supply of their own or on the bus, without a
        /// stated suppression of the coil's voltage spike. Where the catalogue gives the coil's inductance
        /// and drop-out current, the delay that a plain diode would cost is told.
        ///
        /// # Why it matters
        /// When the contact opens, the coil drives its voltage to hundreds of volts until the arc ends it.
        /// That erodes the contact, resets stations and is heard on the bus.
        ///
        /// # Example
        /// A strike on its own transformer with nothing across its coil.
        ///
        /// # What to do
        /// At the lock, not at the relay: on direct current a diode (cathode to plus; it delays a release by
        /// power loss by some tens of milliseconds) or a clamp, on alternating current a varistor. Many
        /// locks have it built in: then state it.
    german:
        /// # Was geprüft wird
        /// Schlösser, die das Relais der Türstation an eigenem Netzteil oder am Bus schaltet, ohne angegebene
        /// Schutzbeschaltung gegen die Spannungsspitze der Spule. Wo der Katalog Induktivität und Abfallstrom der
        /// Spule nennt, steht die Verzögerung dabei, die eine einfache Diode kostet.
        ///
        /// # Warum es zählt
        /// Wenn der Kontakt öffnet, treibt die Spule ihre Spannung auf Hunderte Volt, bis der Lichtbogen es
        /// beendet. Das frisst den Kontakt, setzt Stationen zurück und ist auf dem Bus zu hören.
        ///
        /// # Beispiel
        /// Ein Türöffner an eigenem Transformator, an dessen Spule nichts liegt.
        ///
        /// # Was zu tun ist
        /// Am Schloss, nicht am Relais: bei Gleichstrom eine Diode (Kathode an Plus; sie verzögert eine Freigabe
        /// durch Stromausfall um einige zehn Millisekunden) oder eine Suppressordiode, bei Wechselstrom ein
        /// Varistor. Viele Schlösser haben sie eingebaut: dann angeben.
}
