//! `lock-voltage-too-low`

code! {
    "lock-voltage-too-low"
    title: "Too little voltage at a lock" | "Zu wenig Spannung an einem Schloss",
    short: "lock: voltage too low" | "Schloss: Unterspannung",
    message:
        "the lock {lock} of {element} gets {value} and needs {limit}"
        | "Das Schloss {lock} von {element} bekommt {value} und braucht {limit}",
    label: "<{current} over {loop}>" | "<{current} über {loop}>",
    hint:
        "<thicker conductors of at most {most_loop} in all, or ><feed it from a supply of {needed_supply}><put a supply of {near_supply} beside it: over this cable, what is enough when it draws most is too much for it when it draws least>"
        | "<dickere Adern mit zusammen höchstens {most_loop}, oder ><aus einem Netzteil mit {needed_supply} speisen><ein Netzteil mit {near_supply} daneben setzen: Über diese Leitung ist, was bei größtem Strom genügt, bei kleinstem zu viel für es>",
    measure:
        "The voltage at the lock's own terminals while it is released, with the lock connected; then at the terminals of what feeds it. The difference is what its cable takes."
        | "Die Spannung an den Klemmen des Schlosses während der Freigabe, mit angeschlossenem Schloss; dann an den Klemmen dessen, was es speist. Der Unterschied ist, was seine Leitung nimmt.",
    english:
        /// # What it checks
        /// The voltage at every lock with every tolerance at its worst: the feed at the lower end of its tolerance (on
        /// the bus: the lowest voltage at the door station in any state), the lock's own cable hot, long and
        /// at the upper end of its tolerance, with its joints, and the larger of inrush and rated current
        /// plus 10 % (a cold coil; common practice, no source). It must not lie below the rated voltage less
        /// the lock's tolerance. Cable or length that is not stated: not judged.
        ///
        /// # Why it matters
        /// A strike that gets too little buzzes and does not open; a magnet holds with less force than its
        /// datasheet says; a motor lock stalls. It shows on a hot day or with the second lock on the same
        /// transformer, not on the day of handover.
        ///
        /// # Example
        /// A 12 V strike of 0.5 A over 12 m of 0.25 mm² wire: 10.5 V of the 10.8 V that it needs.
        ///
        /// # What to do
        /// A thicker or shorter cable, or a feed nearer to the lock. A higher feed voltage only as far as
        /// the lock bears it without the drop.
    german:
        /// # Was geprüft wird
        /// Die Spannung an jedem Schloss, alle Toleranzen dagegen: die Speisung am unteren Ende ihrer Toleranz (am
        /// Bus: die kleinste Spannung an der Türstation in allen Zuständen), die eigene Leitung des Schlosses warm,
        /// lang und am oberen Ende ihrer Toleranz, mit ihren Verbindungen, und der größere von Einschaltstrom und
        /// Nennstrom plus 10 % (kalte Spule; üblich, keine Quelle). Sie darf nicht unter der Nennspannung abzüglich
        /// der Toleranz des Schlosses liegen. Leitung oder Länge nicht angegeben: nicht beurteilt.
        ///
        /// # Warum es zählt
        /// Ein Türöffner, der zu wenig bekommt, summt und öffnet nicht; ein Magnet hält schwächer, als sein
        /// Datenblatt sagt; ein Motorschloss bleibt stehen. Es zeigt sich an einem heißen Tag oder mit dem zweiten
        /// Schloss am selben Transformator, nicht am Tag der Übergabe.
        ///
        /// # Beispiel
        /// Ein Türöffner für 12 V, 0,5 A, über 12 m Draht 0,25 mm²: 10,5 V von den 10,8 V, die er braucht.
        ///
        /// # Was zu tun ist
        /// Eine dickere oder kürzere Leitung, oder eine Speisung näher am Schloss. Eine höhere Speisespannung nur
        /// so weit, wie das Schloss sie ohne den Spannungsfall verträgt.
}
