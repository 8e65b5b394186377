//! `door-contact-cable-twice`

code! {
    "door-contact-cable-twice"
    title: "Two cables to one door contact" | "Zwei Leitungen zu einem Türkontakt",
    message: "{name} has one door contact and two cables to it: that of the alarm input is planned, that of the lock is left out" | "{name} hat einen Türkontakt und zwei Leitungen dazu: Geplant ist die des Meldeeingangs, die des Schlosses bleibt weg",
    hint: "keep one of the two" | "eine von beiden behalten",
    english:
        /// An alarm input of kind "door" takes the door contact of the door's first lock (`door_contact`): it is one contact with one pair of
        /// terminals. The input states a `cable` or `length`, and the lock's `cables` states one to the door contact too.
        ///
        /// The cable of the input is planned; the lock's stands in no list and is not bought. Remove one of them. If a second contact is meant,
        /// for a device outside the plan, state it with the lock and give the input another kind.
    german:
        /// Ein Meldeeingang der Art „door“ wertet den Türkontakt des ersten Schlosses der Tür aus (`door_contact`): Es ist ein Kontakt mit einem
        /// Paar Klemmen. Der Eingang nennt `cable` oder `length`, und auch `cables` des Schlosses nennt eine Leitung zum Türkontakt.
        ///
        /// Geplant wird die Leitung des Eingangs; die des Schlosses steht in keiner Liste und wird nicht gekauft. Eine von beiden entfernen. Ist ein
        /// zweiter Kontakt gemeint, für ein Gerät außerhalb des Plans, ihn beim Schloss angeben und dem Eingang eine andere Art geben.
}
