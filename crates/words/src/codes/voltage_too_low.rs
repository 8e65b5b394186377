//! `voltage-too-low`

code! {
    "voltage-too-low"
    title: "Too little voltage at a device" | "Zu wenig Spannung an einem Gerät",
    short: "voltage too low" | "Spannung zu niedrig",
    message:
        "{element} has <{bound} >{value} and needs {limit}, {state}"
        | "{element} hat <{bound} >{value} und braucht {limit} ({state})",
    label: "<on run {run}>" | "<am Strang {run}>",
    hint:
        "thicker conductors, a shorter way<, {fewer}>, or a supply nearer by"
        | "dickere Adern, ein kürzerer Weg<, {fewer}>, oder ein Netzteil in der Nähe",
    measure:
        "At that device's terminals, the voltage in standby and again while it is called. Then at every stop back to the port: one large step between two stops is a joint, many even ones are too thin a cable."
        | "An den Klemmen dieses Geräts die Spannung in Ruhe und noch einmal bei Ruf. Dann an jedem Halt zurück bis zum Abgang: Ein großer Schritt zwischen zwei Halten ist eine schlechte Klemme, viele gleiche sind eine zu dünne Leitung.",
    english:
        /// # What it checks
        /// The voltage at the terminals of every station, and at the input of every box that states a least
        /// voltage, against the limit that holds for what the device is doing: its least voltage in use
        /// while it rings or talks, its least standby voltage while it waits or boots.
        ///
        /// The voltage is that of the worst state: standby by day and night, as many calls at once as
        /// the family permits, self-started views, all-call, power return, fire release and battery at its end voltage; with the
        /// set of callers that is worst for this device; with hot cable, upper tolerance of lengths and loads
        /// and the lowest supply voltage.
        ///
        /// # Why it matters
        /// Below its least voltage a station restarts when it is called, shows no picture or does not
        /// release the door: always at the last flat, always in the evening.
        ///
        /// # Example
        /// A-504 has 34.8 V while it talks and two other flats are called; it needs 37 V.
        ///
        /// # What to do
        /// Thicker conductors, a shorter way, fewer stations on the run, another port, or a supply nearer by.
        /// A doubled pair halves the resistance but also the characteristic impedance of the pair.
    german:
        /// # Was geprüft wird
        /// Die Spannung an den Klemmen jeder Station, und am Eingang jedes Verteilers, der eine kleinste Spannung
        /// nennt, gegen den Grenzwert, der für das gilt, was das Gerät gerade tut: seine kleinste Betriebsspannung,
        /// während es läutet oder spricht, seine kleinste Ruhespannung, während es wartet oder hochfährt.
        ///
        /// Die Spannung ist die des ungünstigsten Zustands: Ruhe bei Tag und Nacht, so viele gleichzeitige Rufe,
        /// wie die Familie zulässt, selbst gestartetes Ansehen, Sammelruf, Netzwiederkehr, Freigabe im Brandfall
        /// und Batterie an ihrer Endspannung; mit den Rufenden, die für dieses Gerät am ungünstigsten sind; mit
        /// warmer Leitung, oberer Toleranz von Längen und Lasten und der kleinsten Netzteilspannung.
        ///
        /// # Warum es zählt
        /// Unter ihrer kleinsten Spannung startet eine Station neu, wenn sie gerufen wird, zeigt kein Bild oder
        /// gibt die Tür nicht frei: immer in der letzten Wohnung, immer am Abend.
        ///
        /// # Beispiel
        /// A-504 hat 34,8 V, während sie spricht und zwei weitere Wohnungen gerufen werden; sie braucht 37 V.
        ///
        /// # Was zu tun ist
        /// Dickere Adern, ein kürzerer Weg, weniger Stationen am Strang, ein anderer Abgang, oder ein Netzteil in
        /// der Nähe. Ein doppeltes Paar halbiert den Widerstand, aber auch den Wellenwiderstand des Paars.
}
