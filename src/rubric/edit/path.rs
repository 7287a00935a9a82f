use std::fmt;
use std::str::FromStr;

/// One step down into a file.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Step {
    /// To a key of a table.
    Key(String),
    /// To an item of a list, counted from 0.
    At(usize),
}

/// A place in a rubric file. Print and parse: `sections.2.criteria.0.note`.
#[derive(Debug, Clone, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Path(Vec<Step>);

impl Path {
    /// The whole file.
    pub fn root() -> Self {
        Self::default()
    }

    /// The key `name` of the table here.
    #[must_use]
    pub fn key(&self, name: &str) -> Self {
        self.then(Step::Key(name.to_owned()))
    }

    /// The item at `index` of the list here.
    #[must_use]
    pub fn at(&self, index: usize) -> Self {
        self.then(Step::At(index))
    }

    /// The steps from the root.
    pub fn steps(&self) -> &[Step] {
        &self.0
    }

    /// The place one step up, and the last step.
    pub fn parent(&self) -> Option<(Self, &Step)> {
        let (last, before) = self.0.split_last()?;
        Some((Self(before.to_vec()), last))
    }

    fn then(&self, step: Step) -> Self {
        let mut steps = self.0.clone();
        steps.push(step);
        Self(steps)
    }
}

impl fmt::Display for Path {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, step) in self.0.iter().enumerate() {
            if index > 0 {
                f.write_str(".")?;
            }
            match step {
                Step::Key(key) => f.write_str(key)?,
                Step::At(at) => at.fmt(f)?,
            }
        }
        Ok(())
    }
}

impl FromStr for Path {
    type Err = std::convert::Infallible;

    fn from_str(text: &str) -> Result<Self, Self::Err> {
        let steps = text.split('.').filter(|step| !step.is_empty());
        let steps = steps.map(|step| match step.parse() {
            Ok(at) => Step::At(at),
            Err(_) => Step::Key(step.to_owned()),
        });
        Ok(Self(steps.collect()))
    }
}
