import { forest } from '../../charts/forest.ts'
import { valueRows } from '../../charts/setup-rows.ts'
import { useAnswer } from '../api/use-answer.ts'
import { AnswerState } from '../components/notices.tsx'
import { Figure } from '../components/picture.tsx'
import { SafetyNotices } from '../components/safety.tsx'
import { readingOf } from '../metrics.ts'
import { useReading } from '../settings.ts'

/** What this is for, the two things to do here, and an answer as a sample. */
export function StartPage() {
  return (
    <>
      <h1>What did the new engine, propeller or frame really gain?</h1>
      <p class="lead">
        Pilots time their climbs and measure their fuel at any field. Fairclimb brings every run to
        the same air and the same mass, pools them over pilots and days, and says which setup climbs
        better or burns less at <em>your</em> mass and field, and how sure that is.
      </p>
      <div class="row">
        <a class="button" href="/compare">
          Compare setups
        </a>
        <a class="button button-second" href="/submit">
          Submit a test
        </a>
      </div>
      <Sample />
      <section class="columns">
        <div>
          <h2>At the field</h2>
          <p>
            A stopwatch, the altimeter, the weather and your masses are enough. The form works
            without a network and sends when there is one.
          </p>
        </div>
        <div>
          <h2>At the counter</h2>
          <p>
            Choose the customer’s weight class and read the answer: one sentence first, then how far
            it can be trusted. It prints on one page.
          </p>
        </div>
        <div>
          <h2>Without a guess</h2>
          <p>
            Where the flights do not carry an answer there is none, with the reason. Everybody who
            submits says whether they sell what they tested.
          </p>
        </div>
      </section>
    </>
  )
}

function Sample() {
  const asked = useAnswer('/v1/rankings', {
    query: { metric: 'climbRate', massClass: '100to120', limit: 6 },
  })
  const metric = readingOf('climbRate', useReading())
  const answer = asked.got?.body
  return (
    <section>
      <h2>Climb rate at 100 to 120 kg all-up</h2>
      <AnswerState asked={asked} />
      {answer !== undefined && answer.ranked.length === 0 && (
        <p>
          No flights yet that could be compared. The first two setups flown in one session make a
          start.
        </p>
      )}
      {answer !== undefined && answer.ranked.length > 0 && (
        <>
          <SafetyNotices setups={[...answer.setAside, ...answer.ranked]} />
          <Figure
            caption={`Sea level, standard air, in ${metric.sign}. Dot: the estimate. Bar: where the truth lies with 95 % certainty.`}
            draw={(widthPx) =>
              forest(valueRows(answer.ranked, metric.toReader), {
                widthPx,
                title: 'Climb rate at 110 kg, sea level',
                axis: `Climb rate, ${metric.sign}`,
                write: metric.write,
              })
            }
          />
          <p>
            <a href="/compare?metric=climbRate&massClass=100to120">
              The whole list, with what it rests on
            </a>
          </p>
        </>
      )}
    </section>
  )
}
