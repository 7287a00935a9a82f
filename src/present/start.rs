use super::learners::learner_choices;
use super::offers::{Offer, self_checks};
use crate::command::{Command, CommandError, OwnMarking, StartPiece, Who};
use crate::records::{Day, Examiner, ExaminerId, Ledger, Moment, Role, SittingKind, Unit};

/// How far ahead a piece may be dated; more is taken for a slip of the pen.
const MOST_DAYS_AHEAD: i64 = 31;
/// Earlier years are taken for a slip of the pen.
const FIRST_YEAR: i32 = 1950;

/// Whose the piece is said to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhoForm {
    /// Somebody from the list.
    Listed,
    /// Somebody new.
    New,
    /// A ticket.
    Ticket,
}

impl WhoForm {
    /// Every one, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Listed, Self::New, Self::Ticket];

    /// What the form's field holds.
    pub fn word(self) -> &'static str {
        match self {
            Self::Listed => "listed",
            Self::New => "new",
            Self::Ticket => "ticket",
        }
    }

    /// Title and note for people.
    pub fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Listed => ("Learner", "from the list"),
            Self::New => ("New learner", "name typed here"),
            Self::Ticket => ("Ticket", "name hidden until sealing"),
        }
    }

    fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|who| who.word() == word)
    }
}

/// Who marks the piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkedBy {
    /// The examiner.
    Examiner,
    /// The examiner and the maker.
    Both,
    /// Two examiners.
    Two,
}

impl MarkedBy {
    /// Every one, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Examiner, Self::Two, Self::Both];

    /// What the form's field holds.
    pub fn word(self) -> &'static str {
        match self {
            Self::Examiner => "examiner",
            Self::Both => "both",
            Self::Two => "two",
        }
    }

    /// Title and note for people.
    pub fn words(self) -> (&'static str, &'static str) {
        match self {
            Self::Examiner => ("Examiner", "one marking"),
            Self::Both => (
                "Examiner and maker",
                "each unseen by the other until both are sealed",
            ),
            Self::Two => (
                "Two examiners",
                "each unseen by the other until both are sealed",
            ),
        }
    }
}

/// The form for starting a piece, every field as text.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct StartForm {
    /// A [`WhoForm`] word.
    pub who: String,
    /// Id of the learner from the list.
    pub learner: String,
    /// Name of a new learner.
    pub name: String,
    /// The ticket.
    pub ticket: String,
    /// Id of the learner whose ticket it is, or nothing.
    pub ticket_learner: String,
    /// Key of an [`Offer`].
    pub rubric: String,
    /// A [`SittingKind`] word.
    pub sitting: String,
    /// The date as date fields hold it.
    pub day: String,
    /// A [`MarkedBy`] word; asked where [`StartForm::asks_marker`].
    pub marked_by: String,
    /// Key of the [`Offer`] by which the maker marks; [`StartForm::SAME`] is the piece's
    /// own.
    pub own_rubric: String,
    /// The examiner's name.
    pub examiner: String,
    /// A word of [`StartForm::UNITS`].
    pub unit: String,
    /// The second examiner's name, where two mark.
    pub second_examiner: String,
}

/// What is wrong, by field.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct StartErrors {
    /// About the learner from the list.
    pub learner: Option<String>,
    /// About the new learner's name.
    pub name: Option<String>,
    /// About the ticket.
    pub ticket: Option<String>,
    /// About the rubric.
    pub rubric: Option<String>,
    /// About the kind of sitting.
    pub sitting: Option<String>,
    /// About the date.
    pub day: Option<String>,
    /// About the examiner.
    pub examiner: Option<String>,
    /// About something else.
    pub other: Option<String>,
    /// About the second examiner.
    pub second: Option<String>,
}

impl StartForm {
    /// What the form holds where the maker marks by the piece's own rubric.
    pub const SAME: &'static str = "same";

    /// Units that a sheet may be kept in: word, title, note.
    pub const UNITS: [(&'static str, &'static str, &'static str, Unit); 3] = [
        ("mm", "Millimetres", "to 0.1 mm", Unit::Millimetre),
        ("in32", "Inches", "to 1/32 in", Unit::Inch32),
        ("in64", "Fine inches", "to 1/64 in", Unit::Inch64),
    ];

    /// The form as it is first shown: the nearest way to start.
    pub fn fresh(
        ledger: &Ledger,
        offers: &[Offer],
        today: Day,
        examiner: String,
        unit: &str,
    ) -> Self {
        let any = ledger.learners().next().is_some();
        let who = if any { WhoForm::Listed } else { WhoForm::New };
        Self {
            who: who.word().to_owned(),
            rubric: offers
                .first()
                .map_or_else(String::new, |offer| offer.key().to_owned()),
            sitting: SittingKind::Practice.word().to_owned(),
            day: today.iso(),
            marked_by: MarkedBy::Examiner.word().to_owned(),
            own_rubric: Self::SAME.to_owned(),
            examiner,
            unit: Self::known_unit(unit).to_owned(),
            ..Self::default()
        }
    }

    /// The form for the learner whose id is `asked`, as an address names it; for the list
    /// where there is anybody on it.
    pub fn asked_for(self, ledger: &Ledger, asked: &str) -> Self {
        let choices = learner_choices(ledger, asked);
        let is_here = choices.iter().any(|choice| choice.id.to_string() == asked);
        let who = match choices.is_empty() {
            true => WhoForm::New,
            false => WhoForm::Listed,
        };
        Self {
            who: who.word().to_owned(),
            learner: if is_here { asked } else { "" }.to_owned(),
            ..self
        }
    }

    /// The command that the form asks for, or all that is wrong with it.
    pub fn read(&self, offers: &[Offer], at: Moment) -> Result<Command, Box<StartErrors>> {
        let mut errors = StartErrors::default();
        let who = self.read_who(&mut errors);
        let offer = offers.iter().find(|offer| offer.key() == self.rubric);
        if offer.is_none() {
            errors.rubric = Some("Choose a rubric.".to_owned());
        }
        let sitting = SittingKind::ALL
            .into_iter()
            .find(|kind| kind.word() == self.sitting);
        if sitting.is_none() {
            errors.sitting = Some("Say what the piece is made for.".to_owned());
        }
        let day = read_day(&self.day, at.day())
            .map_err(|why| errors.day = Some(why))
            .ok();
        let asks_marker = Self::asks_marker(&self.sitting);
        if asks_marker && self.examiner.trim().is_empty() {
            errors.examiner = Some("Give the name of whoever marks.".to_owned());
        }
        let is_by_two = self.is_by_two();
        if is_by_two && self.second_examiner.trim().is_empty() {
            errors.second = Some("Give the name of the second examiner.".to_owned());
        }
        if errors != StartErrors::default() {
            return Err(Box::new(errors));
        }
        let (Some(who), Some(offer), Some(sitting), Some(day)) = (who, offer, sitting, day) else {
            return Err(Box::new(errors));
        };
        Ok(Command::StartPiece(Box::new(StartPiece {
            who,
            rubric: offer.rubric.clone(),
            sitting,
            day,
            // Without a name it is the maker's.
            examiner: if asks_marker {
                self.examiner.clone()
            } else {
                String::new()
            },
            unit: self.unit(),
            role: if asks_marker { Role::First } else { Role::Own },
            own: self.asks_own_rubric().then(|| OwnMarking {
                rubric: own_rubrics(offers, &self.rubric)
                    .into_iter()
                    .find(|own| own.key() == self.own_rubric)
                    .map(|own| own.rubric.clone()),
            }),
            at,
            second: is_by_two.then(|| self.second_examiner.clone()),
        })))
    }

    /// Whether a sitting of this kind is asked who marks: the maker alone does in a
    /// self-check.
    pub fn asks_marker(sitting: &str) -> bool {
        sitting != SittingKind::SelfCheck.word()
    }

    /// Whether the maker marks beside the examiner.
    fn asks_own_rubric(&self) -> bool {
        Self::asks_marker(&self.sitting) && self.marked_by == MarkedBy::Both.word()
    }

    /// Whether two examiners mark.
    fn is_by_two(&self) -> bool {
        Self::asks_marker(&self.sitting) && self.marked_by == MarkedBy::Two.word()
    }

    /// The unit chosen.
    pub fn unit(&self) -> Unit {
        Self::unit_of(&self.unit)
    }

    /// The unit of a word of [`StartForm::UNITS`], or millimetres.
    pub(super) fn unit_of(word: &str) -> Unit {
        let found = Self::UNITS.iter().find(|(own, ..)| *own == word);
        found.map_or(Unit::Millimetre, |(.., unit)| *unit)
    }

    /// `word` where it is one of [`StartForm::UNITS`], or that of millimetres.
    pub(super) fn known_unit(word: &str) -> &str {
        let is_known = Self::UNITS.iter().any(|(own, ..)| *own == word);
        if is_known { word } else { "mm" }
    }

    fn read_who(&self, errors: &mut StartErrors) -> Option<Who> {
        match WhoForm::from_word(&self.who) {
            Some(WhoForm::Listed) => match self.learner.parse() {
                Ok(id) => Some(Who::Learner(id)),
                Err(_) => {
                    errors.learner = Some("Choose a learner from the list.".to_owned());
                    None
                }
            },
            Some(WhoForm::Ticket) if self.ticket.trim().is_empty() => {
                errors.ticket = Some("Give the ticket’s number.".to_owned());
                None
            }
            Some(WhoForm::Ticket) => Some(Who::Ticket {
                ticket: self.ticket.clone(),
                learner: self.ticket_learner.parse().ok(),
            }),
            _ if self.name.trim().is_empty() => {
                errors.name = Some("Give the learner’s name.".to_owned());
                None
            }
            _ => Some(Who::Name(self.name.clone())),
        }
    }
}

impl StartErrors {
    /// What a refused command says, beside the field that it is about.
    pub fn refused(form: &StartForm, error: &CommandError) -> Self {
        let mut errors = Self::default();
        let field = match (error, WhoForm::from_word(&form.who)) {
            (CommandError::TicketTaken { .. }, _) => &mut errors.ticket,
            (CommandError::NameTaken { .. } | CommandError::NameOfMany { .. }, _) => {
                &mut errors.name
            }
            (CommandError::RubricDiffers { .. }, _) => &mut errors.rubric,
            (
                CommandError::RoleRefused {
                    role: Role::Second, ..
                },
                _,
            ) => &mut errors.second,
            (CommandError::Missing { .. }, Some(WhoForm::Listed)) => &mut errors.learner,
            _ => &mut errors.other,
        };
        *field = Some(sentence(&error.to_string()));
        errors
    }

    /// The id of the first field with an error, from the top of the form.
    pub fn first_field(&self) -> Option<&'static str> {
        let fields = [
            ("learner", &self.learner),
            ("name", &self.name),
            ("ticket", &self.ticket),
            ("rubric", &self.rubric),
            ("sitting", &self.sitting),
            ("date", &self.day),
            ("examiner", &self.examiner),
            ("second-examiner", &self.second),
        ];
        fields
            .into_iter()
            .find(|(_, error)| error.is_some())
            .map(|(id, _)| id)
    }
}

/// What the maker may mark by beside the rubric `chosen`: its self-checks.
pub fn own_rubrics<'a>(offers: &'a [Offer], chosen: &str) -> Vec<&'a Offer> {
    let chosen = offers.iter().find(|offer| offer.key() == chosen);
    chosen.map_or_else(Vec::new, |chosen| {
        self_checks(offers, &chosen.rubric.rubric_id, &chosen.entries)
    })
}

/// Names to offer where an examiner is asked for.
pub fn examiner_names(ledger: &Ledger) -> Vec<String> {
    let named = examiners(ledger);
    named.map(|examiner| examiner.name.clone()).collect()
}

/// Whoever may be asked for as an examiner: not those who marked only what they made
/// themselves.
pub(super) fn examiners(ledger: &Ledger) -> impl Iterator<Item = &Examiner> {
    let marks_only_own = |id: ExaminerId| {
        let mut roles = ledger
            .markings()
            .filter(|marking| marking.examiner == id)
            .map(|marking| marking.role)
            .peekable();
        roles.peek().is_some() && roles.all(|role| role == Role::Own)
    };
    let named = ledger.examiners();
    named.filter(move |examiner| !marks_only_own(examiner.id))
}

/// Title and note of a kind of sitting.
pub fn sitting_words(kind: SittingKind) -> (&'static str, &'static str) {
    match kind {
        SittingKind::Practice => ("Practice", "to learn"),
        SittingKind::Mock => ("Mock", "as in an exam"),
        SittingKind::Exam => ("Exam", "for the award"),
        SittingKind::SelfCheck => ("Self-check", "marked by the maker"),
    }
}

/// A message that stands alone: a capital first, a full stop last.
pub fn sentence(message: &str) -> String {
    let mut letters = message.chars();
    let first = letters.next().map(char::to_uppercase);
    let mut text: String = first.into_iter().flatten().chain(letters).collect();
    if !text.ends_with(['.', '!', '?']) {
        text.push('.');
    }
    text
}

pub(super) fn read_day(text: &str, today: Day) -> Result<Day, String> {
    let day: Day = text
        .parse()
        .map_err(|_| "Give the day on which the piece was made.".to_owned())?;
    if day.days_since(today) > MOST_DAYS_AHEAD {
        return Err(format!(
            "{day} lies more than a month ahead; look at the year."
        ));
    }
    if day.year() < FIRST_YEAR {
        return Err(format!("{day} lies before {FIRST_YEAR}; look at the year."));
    }
    Ok(day)
}
