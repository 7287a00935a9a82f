use crate::marking::{Award, Facts, Marking, mark_in};
use crate::quantity::{Exact, Unit, print_decimal, shortened};
use crate::rubric::{DecisionRule, Rubric};

use super::weigh::{PassChance, pass_chance};

/// What a decision rule makes of the best estimate's award, where a pass has probability
/// `pass`.
///
/// *Rules:* guarded acceptance passes only where the risk of a wrong pass, `1 - pass`, is
/// at most the rubric's; guarded rejection says not yet only where the risk of a wrong
/// refusal, `pass`, is (JCGM 106:2012, 8.3.2 and 8.3.3, with the guard band stated as a
/// probability). Between lies undecided.
pub fn decide(rule: DecisionRule, best: Award, pass: f64) -> Award {
    let share = |risk: Exact| risk.to_f64() / 100.0;
    match (rule, best) {
        (DecisionRule::GuardedAcceptance { risk }, Award::Pass) if 1.0 - pass > share(risk) => {
            Award::Undecided
        }
        (DecisionRule::GuardedRejection { risk }, Award::NotYet) if pass > share(risk) => {
            Award::Undecided
        }
        (_, best) => best,
    }
}

/// As [`mark_in`](crate::marking::mark_in), with the award that the rubric's decision rule
/// makes of it. The marks are the same.
pub fn mark_and_decide(rubric: &Rubric, facts: &Facts, sheet: Unit) -> Marking {
    let outcome = mark_in(rubric, facts, sheet);
    decided(outcome, rubric, &|| pass_chance(rubric, facts))
}

/// `outcome` with the award that the rubric's decision rule makes of it; `pass` is asked
/// only where it matters.
pub fn decided(mut outcome: Marking, rubric: &Rubric, pass: &dyn Fn() -> PassChance) -> Marking {
    let rule = rubric.award.decision;
    let is_open = match rule {
        DecisionRule::Simple => false,
        DecisionRule::GuardedAcceptance { .. } => outcome.award == Award::Pass,
        DecisionRule::GuardedRejection { .. } => outcome.award == Award::NotYet,
    };
    if !is_open {
        return outcome;
    }
    match pass() {
        Ok(Some(pass)) => {
            outcome.award = decide(rule, outcome.award, pass);
            let why = reason(rule, outcome.award, pass);
            outcome.award_reasons.push(why);
        }
        Ok(None) => {}
        Err(why) => {
            outcome.award = Award::Undecided;
            outcome.award_reasons.push(why.to_string());
        }
    }
    outcome
}

/// Why a guarded rule decides so.
fn reason(rule: DecisionRule, decided: Award, pass: f64) -> String {
    let chance = chance_words(pass);
    let say = |risk: Exact| shortened(&print_decimal(risk, 1));
    let asked = match rule {
        DecisionRule::Simple => return String::new(),
        DecisionRule::GuardedAcceptance { risk } => {
            let asked = Exact::HUNDRED.minus(risk).unwrap_or(Exact::HUNDRED);
            format!("a pass asks for at least {} %", say(asked))
        }
        DecisionRule::GuardedRejection { risk } => {
            format!("not yet asks for at most {} %", say(risk))
        }
    };
    let then = if decided == Award::Undecided {
        "; measure again what is decisive, or ask a second examiner"
    } else {
        ""
    };
    format!("as far as measuring goes a pass has probability {chance}, and {asked}{then}")
}

/// A probability as people read it, to 0.1 %: `97.3 %`, `over 99.9 %`, `under 0.1 %`. Only
/// what is certain is said to be 0 or 100 %.
pub fn chance_words(probability: f64) -> String {
    let percent = probability * 100.0;
    match percent {
        none if none <= 0.0 => "0 %".to_owned(),
        all if all >= 100.0 => "100 %".to_owned(),
        little if little < 0.1 => "under 0.1 %".to_owned(),
        most if most > 99.9 => "over 99.9 %".to_owned(),
        _ => format!("{percent:.1} %"),
    }
}
