//! `battery-missing`

code! {
    "battery-missing"
    title: "A battery asked for and none fitted" | "Eine Batterie ist verlangt und keine da",
    short: "battery missing" | "Batterie fehlt",
    message:
        "{element} has no battery; the policy asks for {limit} without mains"
        | "{element} hat keine Batterie; die Vorgabe ist {limit} ohne Netz",
    label: "<model {model}>" | "<Modell {model}>",
    hint:
        "take one with a battery, or drop standby_hours"
        | "ein Netzteil mit Batterie nehmen, oder die Stunden aus der Vorgabe nehmen",
    english:
        /// # What it checks
        /// Where the policy asks for `standby_hours`: that the model of every supply has a battery.
        ///
        /// # Why it matters
        /// Everything on a supply without battery is dark with the first second of a power cut, and whatever waits for it at a door
        /// stays outside.
        ///
        /// # Example
        /// Eight hours asked for; one of two supplies is the model without battery.
        ///
        /// # What to do
        /// Take the model with battery where the family has one, or move what must last to a supply that has one.
    german:
        /// # Was geprüft wird
        /// Wo die Vorgabe `standby_hours` verlangt: dass das Modell jedes Netzteils eine Batterie hat.
        ///
        /// # Warum es zählt
        /// Alles an einem Netzteil ohne Batterie ist mit der ersten Sekunde eines Netzausfalls aus, und wer an der Tür
        /// darauf wartet, bleibt draußen.
        ///
        /// # Beispiel
        /// Acht Stunden verlangt; eines von zwei Netzteilen ist das Modell ohne Batterie.
        ///
        /// # Was zu tun ist
        /// Das Modell mit Batterie nehmen, wo die Gerätefamilie eines hat, oder an ein Netzteil mit Batterie legen, was
        /// weiterlaufen muss.
}
