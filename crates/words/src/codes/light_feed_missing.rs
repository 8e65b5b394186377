//! `light-feed-missing`

code! {
    "light-feed-missing"
    title: "Nothing feeds a light" | "Nichts speist eine Leuchte",
    short: "light without feed" | "Leuchte ohne Speisung",
    message:
        "the light {light} of {element} has no feed: {station} has no output for lights"
        | "Die Leuchte {light} von {element} hat keine Speisung: {station} hat keinen Ausgang für Leuchten",
    hint:
        "give it a supply of its own (feed = \"own-supply\"), or take a door station with an output for lights"
        | "ein eigenes Netzteil geben (feed = \"own-supply\"), oder eine Türstation mit Leuchtenausgang nehmen",
    english:
        /// # What it checks
        /// Lights fed from a door station (`feed = "station"`, which is the default) whose model has no output for
        /// lights: its `light_output_voltage` is not stated.
        ///
        /// # Why it matters
        /// The light is then hung on whatever terminal has voltage, which is the bus or the lock output, and takes
        /// what others need.
        ///
        /// # Example
        /// A porch light at a door station that has a lock output and nothing else.
        ///
        /// # What to do
        /// Give it a supply of its own (`feed = "own-supply"`), a light for the bus voltage on the bus (`feed =
        /// "bus"`), or take a door station with an output for lights.
    german:
        /// # Was geprüft wird
        /// Leuchten, die eine Türstation speist (`feed = "station"`, die Vorgabe), deren Modell keinen Ausgang für
        /// Leuchten hat: `light_output_voltage` ist nicht angegeben.
        ///
        /// # Warum es zählt
        /// Die Leuchte wird dann an irgendeine Klemme mit Spannung gehängt, also an den Bus oder den
        /// Schlossausgang, und nimmt, was andere brauchen.
        ///
        /// # Beispiel
        /// Eine Außenleuchte an einer Türstation, die einen Schlossausgang hat und sonst nichts.
        ///
        /// # Was zu tun ist
        /// Ein eigenes Netzteil (`feed = "own-supply"`), eine Leuchte für die Busspannung am Bus (`feed = "bus"`),
        /// oder eine Türstation mit Leuchtenausgang.
}
