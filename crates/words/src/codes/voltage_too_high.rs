//! `voltage-too-high`

code! {
    "voltage-too-high"
    title: "Too much voltage at a device" | "Zu viel Spannung an einem Gerät",
    short: "voltage too high" | "Spannung zu hoch",
    message:
        "{element} gets up to {value}, more than the {limit} that it is made for, {state}"
        | "{element} bekommt bis zu {value} und verträgt {limit} ({state})",
    label: "<on {source}>" | "<an {source}>",
    hint:
        "set the supply lower, or take a model that is made for more"
        | "das Netzteil niedriger stellen, oder ein Modell nehmen, das mehr verträgt",
    measure:
        "The voltage at the supply's terminals and at the station next to it, at night, with nobody calling."
        | "Die Spannung an den Klemmen des Netzteils und an der Station gleich daneben, nachts und ohne Ruf.",
    english:
        /// # What it checks
        /// The highest voltage at every device, with the supply at the upper end of its tolerance, cold
        /// cable and the least load, against the device's highest voltage.
        ///
        /// # Why it matters
        /// The station next to the supply has nearly the open-circuit voltage all night. Too much of it
        /// shortens its life or trips its protection.
        ///
        /// # Example
        /// The supply is set to 52 V plus 3 %; the lodge station, 2 m away, is made for 53 V.
        ///
        /// # What to do
        /// Set the supply lower if it can be set, or take another one; then check the far end again.
    german:
        /// # Was geprüft wird
        /// Die höchste Spannung an jedem Gerät, mit dem Netzteil am oberen Ende seiner Toleranz, kalter Leitung und
        /// kleinster Last, gegen die höchste Spannung des Geräts.
        ///
        /// # Warum es zählt
        /// Die Station neben dem Netzteil hat die ganze Nacht beinahe dessen Leerlaufspannung. Zu viel davon
        /// verkürzt ihr Leben oder lässt ihren Schutz ansprechen.
        ///
        /// # Beispiel
        /// Das Netzteil ist auf 52 V plus 3 % gestellt; die Station beim Pförtner, 2 m entfernt, verträgt 53 V.
        ///
        /// # Was zu tun ist
        /// Das Netzteil niedriger stellen, wenn es sich stellen lässt, oder ein anderes nehmen; dann das ferne Ende
        /// neu prüfen.
}
