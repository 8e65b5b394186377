//! `cable-to-no-part`

code! {
    "cable-to-no-part"
    title: "A cable leads to a part that is not there" | "Eine Leitung führt zu einem Teil, den es nicht gibt",
    message: "{name} has a cable to {part}, but the plan has none there" | "{name} hat eine Leitung zu „{part}“, der Plan hat dort aber keinen",
    hint: "state the part too, or remove the cable" | "auch den Teil angeben, oder die Leitung entfernen",
    english:
        /// A lock's `cables` names a part that the plan does not have: an exit button without `exit_button`, an emergency release without
        /// `emergency_release`, a fire contact without the door's `fire_interlock`, a door contact without `door_contact`, a relay without
        /// `relay_between`, or a supply where the lock is fed otherwise. The cable is bought and cut, but is joined to nothing.
        ///
        /// State the part, or remove the cable.
    german:
        /// `cables` eines Schlosses nennt einen Teil, den der Plan nicht hat: einen Türöffnertaster ohne `exit_button`, eine Notentriegelung
        /// ohne `emergency_release`, einen Brandmeldekontakt ohne `fire_interlock` der Tür, einen Türkontakt ohne `door_contact`, ein Relais ohne
        /// `relay_between`, oder ein Netzgerät, obwohl das Schloss anders gespeist wird. Die Leitung wird gekauft und abgelängt, aber nirgends
        /// angeschlossen.
        ///
        /// Den Teil angeben, oder die Leitung entfernen.
}
