//! `relay-on-unsecure-side`

code! {
    "relay-on-unsecure-side"
    title: "The lock's relay can be reached from outside" | "Das Relais des Schlosses ist von außen erreichbar",
    short: "relay within reach" | "Relais erreichbar",
    message:
        "the relay of the lock {lock} of {element} can be reached from outside"
        | "Das Relais des Schlosses {lock} von {element} ist von außen zugänglich",
    hint: "put a relay inside the door" | "ein Relais innen anbringen",
    english:
        /// # What it checks
        /// Locks whose plan says that their relay does not sit on the secure side of the door
        /// (`relay_on_secure_side = false`).
        ///
        /// # Why it matters
        /// Whoever takes the door station off the wall has the lock's two wires in hand: joined or cut, they
        /// open the door.
        ///
        /// # Example
        /// The relay inside the outdoor door station switches a strike on its own supply.
        ///
        /// # What to do
        /// The family's relay module, or a relay driven over the bus, mounted inside.
    german:
        /// # Was geprüft wird
        /// Schlösser, deren Plan sagt, dass ihr Relais nicht auf der gesicherten Seite der Tür sitzt
        /// (`relay_on_secure_side = false`).
        ///
        /// # Warum es zählt
        /// Wer die Türstation von der Wand nimmt, hat die beiden Drähte des Schlosses in der Hand: verbunden oder
        /// durchtrennt öffnen sie die Tür.
        ///
        /// # Beispiel
        /// Das Relais in der Außenstation schaltet einen Türöffner an eigenem Netzteil.
        ///
        /// # Was zu tun ist
        /// Das Relaismodul der Gerätefamilie, oder ein über den Bus gesteuertes Relais, innen angebracht.
}
