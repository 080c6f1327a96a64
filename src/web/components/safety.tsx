interface Shown {
  readonly setupId: string
  readonly name: string
  readonly safety: {
    readonly state: 'none' | 'advisory' | 'doNotFly'
    readonly advisories: readonly string[]
  }
}

/** Stands before everything else: what must not be flown, and what to read before flying. */
export function SafetyNotices({ setups }: { readonly setups: readonly Shown[] }) {
  const unsafe = setups.filter(({ safety }) => safety.state === 'doNotFly')
  const advised = setups.filter(({ safety }) => safety.state === 'advisory')
  return (
    <>
      {unsafe.map((setup) => (
        <SafetyNotice key={setup.setupId} setup={setup} />
      ))}
      {advised.map((setup) => (
        <SafetyNotice key={setup.setupId} setup={setup} />
      ))}
    </>
  )
}

function SafetyNotice({ setup: { setupId, name, safety } }: { readonly setup: Shown }) {
  const isUnsafe = safety.state === 'doNotFly'
  return (
    <section class={isUnsafe ? 'warning warning-stop' : 'warning'}>
      <h2>{isUnsafe ? 'Do not fly' : 'Safety advisory'}</h2>
      <p>
        <a href={`/setups/${setupId}`}>{name}</a>
        {isUnsafe ? ' was reported unsafe.' : ' has an open report: read it before you fly it.'}
      </p>
      {safety.advisories.length > 0 && (
        <ul>
          {safety.advisories.map((reason) => (
            <li key={reason}>{reason}</li>
          ))}
        </ul>
      )}
    </section>
  )
}
