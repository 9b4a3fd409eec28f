export function TenSteps(props: { readonly onClose: () => void }) {
  return (
    <button type="button" onClick={props.onClose}>
      later
    </button>
  );
}
