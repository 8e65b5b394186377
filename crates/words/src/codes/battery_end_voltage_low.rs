//! `battery-end-voltage-low`

code! {
    "battery-end-voltage-low"
    title: "Devices that go dark before the battery does" | "Geräte, die vor der Batterie dunkel werden",
    short: "dark before the battery" | "dunkel vor Batterieende",
    message:
        "{count:device goes|devices go} dark before the battery of {element} is empty, {worst} first: {value}, needs {limit}"
        | "{count:Gerät fällt|Geräte fallen} aus, bevor die Batterie von {element} leer ist, {worst} zuerst<: {value}, nötig sind {limit}>",
    hint:
        "thicker conductors, or fewer stations on their runs"
        | "dickere Adern, oder weniger Stationen an ihren Strängen",
    measure:
        "With mains off, the voltage at the battery and at the last station of the longest run at the same time: the difference is what the cable takes."
        | "Ohne Netz die Spannung an der Batterie und zugleich an der letzten Station des längsten Strangs: Der Unterschied ist, was die Leitung nimmt.",
    english:
        /// # What it checks
        /// Supplies with a battery: devices on their tree that work on mains but fall below their least
        /// voltage when the battery is at its end voltage. Devices that fail anyhow are in
        /// `voltage-too-low`.
        ///
        /// # Why it matters
        /// The hours of the battery count until its end voltage. Stations that go dark before that have
        /// fewer.
        ///
        /// # Example
        /// The battery ends at 21 V on the bus; the last station of a long run then has 17.6 V of the 18 V
        /// that it needs.
        ///
        /// # What to do
        /// Thicker conductors on these runs, or a supply that holds its output voltage on battery.
    german:
        /// # Was geprüft wird
        /// Netzteile mit Batterie: Geräte an ihrem Baum, die am Netz arbeiten, aber unter ihre kleinste Spannung
        /// fallen, wenn die Batterie ihre Endspannung erreicht. Geräte, die ohnehin ausfallen, stehen bei
        /// `voltage-too-low`.
        ///
        /// # Warum es zählt
        /// Die Stunden der Batterie zählen bis zu ihrer Endspannung. Stationen, die vorher ausfallen, haben
        /// weniger.
        ///
        /// # Beispiel
        /// Die Batterie endet bei 21 V am Bus; die letzte Station eines langen Strangs hat dann 17,6 V von den 18
        /// V, die sie braucht.
        ///
        /// # Was zu tun ist
        /// Dickere Adern auf diesen Strängen, oder ein Netzteil, das seine Ausgangsspannung auf Batterie hält.
}
