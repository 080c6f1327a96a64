import { splitName } from '../../charts/names.ts'

interface Props {
  readonly setup: {
    readonly setupId: string
    readonly name: string
    readonly safety?: { readonly state: 'none' | 'advisory' | 'doNotFly' }
  }
}

/** A setup by name, the engine first as in the charts, and what must not be overlooked about it. */
export function SetupName({ setup: { setupId, name, safety } }: Props) {
  const [head, rest] = splitName(name)
  return (
    <>
      <a class="setup-name" href={`/setups/${setupId}`}>
        <span>{head}</span>
        {rest !== '' && <small> + {rest}</small>}
      </a>
      <SafetyMark state={safety?.state ?? 'none'} />
    </>
  )
}

/** The state of a setup where it stands among others. */
export function SafetyMark({ state }: { readonly state: 'none' | 'advisory' | 'doNotFly' }) {
  if (state === 'doNotFly') return <strong class="stop"> Do not fly</strong>
  if (state === 'advisory') return <strong class="doubtful"> Safety advisory</strong>
  return null
}
